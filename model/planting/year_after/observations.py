"""observations.csv: what was seen in a year on the land, read from the file or typed in."""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from model.factors import FACTORS
from model.planting.year_after.days import EXPECTED, MEND, day_of
from model.planting.year_after.watched import WATCHED, Watched
from model.survey.attribute import REQUIRED, Attribute, Wrong
from model.survey.faults import SurveyFaults, listed, nearest_name, shown
from model.survey.folder import Folder
from model.survey.table import RawRow, raw_rows, table_text

OBSERVATIONS_FILE = "observations.csv"
TYPED = "typed in"
IN_SURVEY = "[in the survey]"  # at the end of the note of what the survey was corrected by
WIDE = 1e6  # limit of a factor's own measure, whose unit says what is likely
MEASURES = {
    factor.name: Watched(
        factor.name, factor.label.lower(), factor.unit, -WIDE, WIDE, math.nan,
        "as the observation says", factor.name, "the factor's own measure",
    )
    for factor in FACTORS
}  # fmt: skip
# A thing watched goes before a factor of its name: soil_depth is the depth as dug.
KINDS: Mapping[str, Watched] = MEASURES | WATCHED
COLUMNS = (
    Attribute("spot", "", REQUIRED, meaning="the peg, as spots.csv or placement.csv names it"),
    Attribute("date", "", REQUIRED, meaning="the day, or the last day of the season watched"),
    Attribute("what", "", REQUIRED, choices=tuple(KINDS), meaning="what was seen"),
    Attribute("value", "", REQUIRED, -WIDE, WIDE, meaning="how much, in the unit"),
    Attribute("plus_minus", "", math.nan, 0, WIDE, meaning="how far it may be off, 19 in 20"),
    Attribute("unit", "", "", meaning="follows from what was seen; may be left blank"),
    Attribute("note", "", "", meaning="anything worth remembering"),
)


@dataclass(frozen=True)
class Observation:
    """One thing seen at a peg; `plus_minus` in its unit holds 19 times in 20."""

    spot: str
    date: date
    what: str
    value: float
    plus_minus: float
    note: str = ""

    @property
    def kind(self) -> Watched:
        """What is known of the thing seen."""
        return KINDS[self.what]

    @property
    def in_survey(self) -> bool:
        """Whether the survey was corrected by it, so that the map knows it already."""
        return self.note.endswith(IN_SURVEY)

    @property
    def assumed(self) -> bool:
        """Whether the plus-minus is the usual one and not the observer's."""
        return self.plus_minus == self.kind.plus_minus


def read_observations(
    path: str | Path, spots: Iterable[str] | None = None
) -> tuple[Observation, ...]:
    """The observations of a file, none where a folder has no observations.csv.

    `spots` are the pegs that may be named, all of them where none are given.

    Raises SurveyFaults with every fault of the file.
    """
    path = Path(path)
    file = path / OBSERVATIONS_FILE if path.is_dir() else path
    folder = Folder(file.parent)
    if path.is_dir() and not file.exists():
        return ()
    rows = raw_rows(folder, file.name, COLUMNS) or []
    return _checked(folder, file.name, rows, spots)


def typed_observations(
    rows: Sequence[Mapping[str, object]], spots: Iterable[str] | None = None
) -> tuple[Observation, ...]:
    """Observations typed into a form, held to the same rules as a file's; row 1 is the first.

    Raises SurveyFaults with every fault.
    """
    raw = [
        RawRow(number, {name: _written(value) for name, value in row.items() if value is not None})
        for number, row in enumerate(rows, start=1)
    ]
    return _checked(Folder(Path()), TYPED, raw, spots)


def observations_text(observations: Iterable[Observation]) -> str:
    """The text of observations.csv."""
    rows = [
        (o.spot, o.date.isoformat(), o.what, o.value, o.plus_minus, o.kind.unit, o.note)
        for o in observations
    ]
    return table_text([column.name for column in COLUMNS], rows)


def _written(value: object) -> str:
    return "" if isinstance(value, float) and math.isnan(value) else str(value).strip()


def _checked(
    folder: Folder, name: str, rows: Sequence[RawRow], spots: Iterable[str] | None
) -> tuple[Observation, ...]:
    known = None if spots is None else tuple(dict.fromkeys(spots))
    found = [_observation(folder, name, row, known) for row in rows]
    first: dict[tuple[object, ...], int] = {}
    for one, row in zip(found, rows, strict=True):
        if one is None:
            continue
        key = (one.spot, one.date, one.what)
        if key in first:
            again = f"{shown(one.what)} of that peg and day again, as in row {first[key]}"
            wrong = Wrong(again, "each once", "deleting one of the two")
            folder.fault(name, row.number, "what", wrong)
        first.setdefault(key, row.number)
    if folder.faults:
        raise SurveyFaults(folder.faults)
    return tuple(one for one in found if one is not None)


def _observation(
    folder: Folder, name: str, row: RawRow, spots: tuple[str, ...] | None
) -> Observation | None:
    before = len(folder.faults)
    cells = {c.name: folder.value(name, row.number, c, row.cells.get(c.name)) for c in COLUMNS}
    kind = KINDS.get(str(cells["what"]))
    wrongs = {"date": _wrong_date(cells["date"]), "spot": _wrong_spot(cells["spot"], spots)}
    if kind is not None:
        wrongs |= {
            "value": _wrong_value(cells["value"], kind),
            "plus_minus": _wrong_plus_minus(cells["plus_minus"], kind),
            "unit": _wrong_unit(cells["unit"], kind),
        }
    for field, wrong in wrongs.items():
        if wrong is not None:
            folder.fault(name, row.number, field, wrong)
    if kind is None or len(folder.faults) > before:
        return None
    said = float(cells["plus_minus"] or 0.0)
    return Observation(
        spot=str(cells["spot"]),
        date=date.fromisoformat(str(cells["date"])),
        what=kind.name,
        value=float(cells["value"] or 0.0),
        plus_minus=kind.plus_minus if math.isnan(said) else said,
        note=str(cells["note"]),
    )


def _wrong_date(found: object) -> Wrong | None:
    if found is None or day_of(str(found)) is not None:
        return None
    return Wrong(shown(found), EXPECTED, MEND)


def _wrong_spot(found: object, spots: tuple[str, ...] | None) -> Wrong | None:
    if found is None or spots is None or found in spots:
        return None
    if not spots:
        return Wrong(shown(found), "a peg of this land, which has none", "adding spots.csv")
    return Wrong(shown(found), listed(spots), nearest_name(str(found), spots))


def _wrong_value(found: object, kind: Watched) -> Wrong | None:
    if found is None or kind.low <= float(str(found)) <= kind.high:
        return None
    limits = f"{kind.name} from {kind.low:g} to {kind.high:g} ({kind.unit})"
    return Wrong(shown(found), limits, f"checking the unit is {kind.unit}")


def _wrong_plus_minus(found: object, kind: Watched) -> Wrong | None:
    """A measurement cannot be certain, and no usual error is known of a factor's own measure."""
    if found is None or kind.yearly or kind.name == "drought_stress":
        return None
    said = float(str(found))
    if math.isnan(said) and math.isnan(kind.plus_minus):
        expected = f"how far {kind.name} may be off ({kind.unit})"
        return Wrong("nothing", expected, "filling in plus_minus")
    if said == 0:
        return Wrong("0", "more than 0", "leaving it blank, for the usual error")
    return None


def _wrong_unit(found: object, kind: Watched) -> Wrong | None:
    if not found or found == kind.unit:
        return None
    return Wrong(shown(found), kind.unit, f"giving {kind.name} in {kind.unit}")
