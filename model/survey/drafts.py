"""A feature as written in some file, checked into a Feature whichever format it came from."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from model.survey.attribute import Attribute, Value, Wrong, is_blank
from model.survey.faults import listed, nearest_name, shown
from model.survey.feature import Feature
from model.survey.folder import Folder
from model.survey.kinds import KINDS, FeatureKind
from model.survey.plus_minus import plus_minus_fields, plus_minuses
from model.survey.settings import REACH

KIND = Attribute("kind", "", "", choices=tuple(KINDS), meaning="what it is")
NAME = Attribute("name", "", "", meaning="what people call it")
NUMBERS_OF_A_GIS = frozenset({"fid", "id", "ogc_fid"})
MOST_FEATURES = 20_000  # as many as a person could survey, and a page could draw
SMALLEST_AREA = 0.01  # m2
SHORTEST_LINE = 0.01  # m


@dataclass(frozen=True)
class Draft:
    """A feature before its check: its place in the file, its geometry [m, local], its fields."""

    file: str
    row: int
    geometry: BaseGeometry
    fields: Mapping[str, object]


def checked_features(folder: Folder, drafts: list[Draft]) -> tuple[Feature, ...]:
    """The drafts that are right, a geometry of several parts as so many features."""
    features: list[Feature] = []
    for draft in drafts:
        kind = _kind(folder, draft)
        if kind is None:
            continue
        name = folder.value(draft.file, draft.row, NAME, draft.fields.get("name"))
        attributes = _attributes(folder, draft, kind)
        parts = _parts(folder, draft, kind)
        if name is not None and attributes is not None:
            origin = f"{draft.file}, feature {draft.row}"
            features += [Feature(kind.name, str(name), part, attributes, origin) for part in parts]
    return tuple(features)


def known_fields() -> tuple[str, ...]:
    """Kind, name, every field that some kind has in the order of KINDS, then every plus-minus."""
    names = [attribute.name for kind in KINDS.values() for attribute in kind.attributes]
    return ("kind", "name", *dict.fromkeys(names), *plus_minus_fields())


def too_many(count: int) -> Wrong:
    """What is wrong with a file of so many features."""
    found = f"{count:,} features or more"
    return Wrong(found, f"at most {MOST_FEATURES:,}", "leaving out what is far from the site")


def _kind(folder: Folder, draft: Draft) -> FeatureKind | None:
    raw = draft.fields.get("kind")
    if isinstance(raw, str) and raw.strip() in KINDS:
        return KINDS[raw.strip()]
    close = nearest_name(raw, KINDS) if isinstance(raw, str) else "filling in the kind"
    folder.fault(draft.file, draft.row, "kind", Wrong(shown(raw), KIND.expected, close))
    return None


def _attributes(folder: Folder, draft: Draft, kind: FeatureKind) -> dict[str, Value] | None:
    before = len(folder.faults)
    names = [attribute.name for attribute in kind.attributes]
    given = [one for one in plus_minuses(kind) if not is_blank(draft.fields.get(one.name))]
    carried = {one.name for one in given}
    known = {"kind", "name", *NUMBERS_OF_A_GIS, *names, *carried}
    for field, raw in draft.fields.items():
        if field not in known and not is_blank(raw):
            mend = nearest_name(field, names) + " or leaving it out"
            expected = f"for a {kind.name} only {listed(names)}" if names else "no attribute"
            folder.fault(draft.file, draft.row, field, Wrong(shown(raw), expected, mend))
    values = {
        attribute.name: folder.value(
            draft.file, draft.row, attribute, draft.fields.get(attribute.name)
        )
        for attribute in (*kind.attributes, *given)
    }
    if len(folder.faults) > before:
        return None
    checked = {name: value for name, value in values.items() if value is not None}
    if kind.name == "view" and float(checked["low_deg"]) >= float(checked["high_deg"]):
        found = f"{checked['low_deg']:g}, not below high_deg {checked['high_deg']:g}"
        wrong = Wrong(found, "the lower edge below the upper one", "exchanging the two")
        folder.fault(draft.file, draft.row, "low_deg", wrong)
        return None
    return checked


def _parts(folder: Folder, draft: Draft, kind: FeatureKind) -> list[BaseGeometry]:
    """The geometry's parts, each of the kind's own type; none when one of them is wrong."""
    geometry = shapely.force_2d(draft.geometry)
    parts = [part for part in shapely.get_parts(geometry) if not part.is_empty]
    wrong = None if parts else Wrong("an empty geometry", listed(kind.geometry), "drawing it")
    for part in parts:
        wrong = wrong or _wrong_geometry(part, kind)
    if kind.name == "boundary" and len(parts) > 1:
        wrong = wrong or Wrong(f"{len(parts)} parts", "one area", "keeping the part to be judged")
    if wrong is not None:
        folder.fault(draft.file, draft.row, "geometry", wrong)
        return []
    return parts


def _wrong_geometry(geometry: BaseGeometry, kind: FeatureKind) -> Wrong | None:
    if geometry.geom_type not in kind.geometry:
        expected = f"a {listed(kind.geometry)} for a {kind.name}"
        return Wrong(f"a {geometry.geom_type}", expected, "drawing it as that")
    points = shapely.get_coordinates(geometry)
    if not np.isfinite(points).all():
        return Wrong("a place off the map", "coordinates on the Earth", "checking the coordinates")
    distance = float(np.hypot(*points.T).max())
    return _far(distance) if distance > REACH else _shapeless(geometry)


def _far(distance: float) -> Wrong:
    return Wrong(
        f"a place {distance / 1000:,.0f} km from the origin",
        f"within {REACH / 1000:g} km of the latitude and longitude in site.toml",
        "checking the coordinates, their order (east or longitude first) and their system",
    )


def _shapeless(geometry: BaseGeometry) -> Wrong | None:
    if geometry.geom_type == "LineString" and geometry.length < SHORTEST_LINE:
        return Wrong("a line without length", "two places apart", "adding its other end")
    if geometry.geom_type != "Polygon":
        return None
    if not geometry.is_valid:
        found = f"an outline that crosses itself ({shapely.is_valid_reason(geometry)})"
        return Wrong(found, "a simple outline", "putting its corners in order, once round")
    if geometry.area < SMALLEST_AREA:
        return Wrong("an outline without area", "an area", "adding its corners")
    return None
