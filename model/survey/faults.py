"""What is wrong in a survey folder, said so that the person who wrote it can mend it."""

from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches

LONGEST_FOUND = 60


@dataclass(frozen=True)
class Fault:
    """One thing wrong in one place.

    `row` is the line of a text file (a CSV's header is row 1, as a spreadsheet counts) or, in
    GeoJSON, GeoPackage and shapefiles, the number of the feature from 1; None for a whole file.
    """

    file: str
    row: int | None
    field: str
    found: str
    expected: str
    mend: str

    def __str__(self) -> str:
        place = self.file
        if self.row is not None:
            place += f", row {self.row}"
        if self.field:
            place += f", {self.field}"
        return f"{place}: found {self.found}, expected {self.expected}, mend by {self.mend}"


class SurveyFaults(ValueError):  # noqa: N818 - named for what it carries: all the faults
    """Every fault of a survey folder at once; the only error that reading one raises."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__(self.faults)

    def __str__(self) -> str:
        return "\n".join(str(fault) for fault in self.faults)


def shown(raw: object) -> str:
    """What was found, as a person would recognise it, cut when it is long."""
    if raw is None or raw == "":
        return "nothing"
    if isinstance(raw, bool):
        return "true" if raw else "false"
    text = repr(raw)
    return text if len(text) <= LONGEST_FOUND else text[:LONGEST_FOUND] + "..."


def nearest_name(name: str, names: Iterable[str]) -> str:
    """How to mend a name that is not known: the closest known one, if any is close."""
    known = {one.lower(): one for one in names}
    close = get_close_matches(name.strip().lower(), known, n=1, cutoff=0.6)
    return f"writing {known[close[0]]!r} instead" if close else "choosing one of those"


def listed(names: Iterable[str]) -> str:
    """Names in a sentence.

    >>> listed(["grass", "gravel", "earth"])
    'grass, gravel or earth'
    """
    *head, last = list(names)
    return f"{', '.join(head)} or {last}" if head else last
