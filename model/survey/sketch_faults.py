"""A sketch checked into a site by the rules of the files, each fault with the mark it is of."""

from dataclasses import dataclass, field, replace
from pathlib import Path

from shapely.geometry import Point

from model.survey.agreement import note_disagreements
from model.survey.attribute import Wrong
from model.survey.drafts import Draft, checked_features
from model.survey.editing import FEWEST, HUB, PEG, Mark, Sketch
from model.survey.faults import Fault, shown
from model.survey.feature import Feature
from model.survey.folder import MOST_FAULTS, Folder
from model.survey.kinds import KINDS
from model.survey.lists import SPOT_COLUMNS
from model.survey.settings import REACH
from model.survey.site import Site, Spot
from model.survey.sketch_file import MOST_MARKS

FILE = "plan"
WHOLE = 0  # the number that faults of the whole site go under


@dataclass(frozen=True)
class Checked:
    """A site of what is right on a sketch, and the faults of the rest by the mark's number."""

    site: Site
    faults: dict[int, tuple[Fault, ...]] = field(default_factory=dict)


def checked_sketch(sketch: Sketch) -> Checked:
    """The site that a sketch makes; features carry 'plan, feature NUMBER' as their origin."""
    folder = Folder(Path(FILE), most=MOST_MARKS * MOST_FAULTS)  # every mark is told its faults
    features: list[Feature] = []
    for mark in sketch.marks:
        if mark.kind in KINDS:
            features += _features(folder, mark)
    spots = _spots(folder, sketch)
    hubs = [mark.points[0] for mark in sketch.of_kind(HUB.name) if mark.points]
    known = {
        "features": features,
        "spots": spots,
        "hub": hubs,
        "boundary": [one for one in features if one.kind == "boundary"],
    }
    absent = {topic: why for topic, why in sketch.site.absent.items() if not known.get(topic)}
    site = replace(
        sketch.site,
        features=tuple(features),
        spots=tuple(spot for spot, _ in spots),
        hub=hubs[0] if hubs else None,
        absent=absent,
    )
    note_disagreements(folder, site, [number for _, number in spots], None)
    faults: dict[int, tuple[Fault, ...]] = {}
    for fault in folder.faults:
        number = fault.row if fault.row is not None else WHOLE
        faults[number] = (*faults.get(number, ()), fault)
    return Checked(site, faults)


def _features(folder: Folder, mark: Mark) -> tuple[Feature, ...]:
    geometry = mark.geometry
    if geometry is None:
        _note_few(folder, mark)
        geometry = Point()
        return ()
    fields = {"kind": mark.kind, "name": mark.name, **mark.fields}
    return checked_features(folder, [Draft(FILE, mark.id, geometry, fields)])


def _note_few(folder: Folder, mark: Mark) -> None:
    expected = f"{FEWEST[mark.shape]} or more"
    wrong = Wrong(f"{len(mark.points)} corners", expected, "drawing it again or deleting it")
    folder.fault(FILE, mark.id, "geometry", wrong)


def _spots(folder: Folder, sketch: Sketch) -> list[tuple[Spot, int]]:
    """The pegs that are right, each with its mark's number."""
    spots: list[tuple[Spot, int]] = []
    taken: set[str] = set()
    for mark in sketch.of_kind(PEG.name):
        before = len(folder.faults)
        name = folder.value(FILE, mark.id, SPOT_COLUMNS[0], mark.name)
        note = folder.value(FILE, mark.id, SPOT_COLUMNS[3], mark.fields.get("note"))
        if name in taken:
            wrong = Wrong(f"{shown(name)} again", "each name once", "renaming one of the two")
            folder.fault(FILE, mark.id, "spot", wrong)
        if not mark.points:
            _note_few(folder, mark)
        elif max(map(abs, mark.points[0])) > REACH:
            wrong = Wrong("a place far off", f"within {REACH:g} m", "moving it nearer")
            folder.fault(FILE, mark.id, "geometry", wrong)
        if len(folder.faults) == before:
            taken.add(str(name))
            spots.append((Spot(str(name), *mark.points[0], str(note)), mark.id))
    return spots
