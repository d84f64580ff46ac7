"""What is wrong in a survey folder, said so that the person who wrote it can mend it."""

from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches
from itertools import islice
from reprlib import Repr

LONGEST_FOUND = 60
LONGEST_NAME = 200  # letters of a name that are compared with those known


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


class _Short(Repr):
    """Python's own notation of a value, worked out no further than it will be shown."""

    def __init__(self) -> None:
        super().__init__()
        self.maxlevel = 4
        self.maxdict = self.maxlist = self.maxtuple = LONGEST_FOUND // 2
        self.maxstring = self.maxother = self.maxlong = 10 * LONGEST_FOUND

    def repr_str(self, text: str, _level: int) -> str:
        """A text, its end left out before it is looked at letter by letter."""
        return repr(text[: 2 * LONGEST_FOUND])

    def repr_int(self, number: int, _level: int) -> str:
        """A whole number; one of thousands of digits, which Python will not write out, in words."""
        return repr(number) if number.bit_length() < 2000 else "a number of thousands of digits"

    def repr_dict(self, table: dict, level: int) -> str:
        """A table in the order of its keys in the file."""
        if level <= 0:
            return "{...}"
        items = islice(table.items(), self.maxdict)
        pairs = (f"{self.repr1(a, level - 1)}: {self.repr1(b, level - 1)}" for a, b in items)
        return f"{{{', '.join(pairs)}}}"


_SHORT = _Short()


def shown(raw: object) -> str:
    """What was found, as a person would recognise it, cut when it is long."""
    if raw is None or raw == "":
        return "nothing"
    if isinstance(raw, bool):
        return "true" if raw else "false"
    text = _SHORT.repr(raw)
    return text if len(text) <= LONGEST_FOUND else text[:LONGEST_FOUND] + "..."


def shown_name(name: str) -> str:
    """A field's name as it stands, or as far as it can be printed on one line."""
    return name if len(name) <= LONGEST_FOUND and name.isprintable() else shown(name)


def nearest_name(name: str, names: Iterable[str]) -> str:
    """How to mend a name that is not known: the closest known one, if any is close."""
    known = {one.lower(): one for one in names}
    close = get_close_matches(name[:LONGEST_NAME].strip().lower(), known, n=1, cutoff=0.6)
    return f"writing {known[close[0]]!r} instead" if close else "choosing one of those"


def listed(names: Iterable[str]) -> str:
    """Names in a sentence.

    >>> listed(["grass", "gravel", "earth"])
    'grass, gravel or earth'
    """
    *head, last = list(names)
    return f"{', '.join(head)} or {last}" if head else last
