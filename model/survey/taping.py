"""A pasted list of taped offsets read into positions, with every line's fault."""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from model.survey.attribute import REQUIRED, Attribute, Value, Wrong, checked_value
from model.survey.faults import Fault, listed, nearest_name, shown
from model.survey.fixing import SIDES, offset_place, taped_fix
from model.survey.measuring import Place, towards

POINTS = ("from", "and from", "towards")  # columns that name a known point
LONGEST = 500  # lines
MOST_LETTERS = 200_000
LONGEST_TAPE = 2000.0  # m


def _point(name: str, meaning: str) -> Attribute:
    return Attribute(name, "", REQUIRED, meaning=meaning)


def _metres(name: str, meaning: str, low: float = 0.0) -> Attribute:
    return Attribute(name, "m", REQUIRED, low, LONGEST_TAPE, (), meaning)


NAME = Attribute("name", "", REQUIRED, meaning="what the new point is called")
SIDE = Attribute(
    "side", "", REQUIRED, choices=SIDES, meaning="as one looks from the first to the second point"
)
METHODS: dict[str, tuple[Attribute, ...]] = {
    "tapes": (
        NAME,
        _point("from", "first known point"),
        _metres("metres", "tape from the first point"),
        _point("and from", "second known point"),
        _metres("metres again", "tape from the second point"),
        SIDE,
    ),
    "bearing": (
        NAME,
        _point("from", "known point"),
        Attribute("bearing", "degrees", REQUIRED, 0, 360, (), "clockwise from true north"),
        _metres("metres", "level distance"),
    ),
    "base line": (
        NAME,
        _point("from", "where the base line begins"),
        _point("towards", "another point on the base line"),
        _metres("chainage", "metres along the base line", -LONGEST_TAPE),
        _metres("offset", "metres square off the base line"),
        SIDE,
    ),
}


@dataclass(frozen=True)
class Taped:
    """A line of the list and where its point lies; `note` says when the fix is weak."""

    row: int
    name: str
    place: Place
    note: str = ""


def taped_positions(
    text: str, method: str, known: Mapping[str, Place]
) -> tuple[tuple[Taped, ...], tuple[Fault, ...]]:
    """Positions by the lines of a list, and the faults of those that give none.

    Cells stand between tabs, semicolons or commas, in the order of METHODS[method]. A point found
    by one line is known to the next. ValueError when there is no such method.
    """
    if method not in METHODS:
        raise ValueError(f"found {method!r}, expected {listed(METHODS)}")
    points, found, faults = dict(known), [], []
    for row, cells in _rows(text[:MOST_LETTERS]):
        if row > LONGEST:
            wrong = Wrong("more lines", f"{LONGEST} at most", "pasting the rest another time")
            faults.append(_fault(row, "", wrong))
            break
        taped = _taped(row, cells, method, points)
        if isinstance(taped, Taped):
            points[taped.name] = taped.place
            found.append(taped)
        else:
            faults += taped
    return tuple(found), tuple(faults)


def _rows(text: str) -> list[tuple[int, list[str]]]:
    """The filled lines with their numbers; a heading such as 'name, from, ...' is passed over."""
    rows = []
    for number, line in enumerate(text.splitlines(), start=1):
        separator = next((one for one in "\t;," if one in line), ",")
        cells = [re.sub(r"(?<=\d)\s*m$", "", cell.strip()) for cell in line.split(separator)]
        if any(cells) and not (number == 1 and cells[0].lower() == "name"):
            rows.append((number, cells))
    return rows


def _taped(
    row: int, cells: list[str], method: str, points: Mapping[str, Place]
) -> Taped | list[Fault]:
    columns = METHODS[method]
    while len(cells) > len(columns) and not cells[-1]:
        cells = cells[:-1]
    if len(cells) > len(columns):
        expected = ", ".join(column.name for column in columns)
        return [_fault(row, "", Wrong(f"{len(cells)} cells", expected, "one point a line"))]
    values: dict[str, Value] = {}
    faults = []
    for number, column in enumerate(columns):
        value = checked_value(column, cells[number] if number < len(cells) else "")
        if isinstance(value, Wrong):
            faults.append(_fault(row, column.name, value))
        else:
            values[column.name] = value
    _as_known(values, points)
    faults += _unknown(row, values, points)
    if faults:
        return faults
    name = str(values["name"])
    try:
        place, note = _place(method, values, points)
    except ValueError as error:
        wrong = Wrong(str(error), "tapes that meet", "measuring again or naming other points")
        return [_fault(row, "", wrong)]
    return Taped(row, name, place, note)


def _as_known(values: dict[str, Value], points: Mapping[str, Place]) -> None:
    """Write a point as it is known where only capitals differ; a pencil is no typist."""
    for column in POINTS:
        name = values.get(column)
        if isinstance(name, str) and name not in points:
            meant = [point for point in points if point.casefold() == name.casefold()]
            values[column] = meant[0] if len(meant) == 1 else name


def _unknown(row: int, values: Mapping[str, Value], points: Mapping[str, Place]) -> list[Fault]:
    faults = []
    for column in POINTS:
        name = values.get(column)
        if isinstance(name, str) and name not in points:
            wrong = Wrong(shown(name), "a known point", nearest_name(name, points))
            faults.append(_fault(row, column, wrong))
    name = values.get("name")
    if isinstance(name, str) and name in points:
        wrong = Wrong(f"{shown(name)} again", "a new name", "naming the new point otherwise")
        faults.append(_fault(row, "name", wrong))
    return faults


def _place(
    method: str, values: Mapping[str, Value], points: Mapping[str, Place]
) -> tuple[Place, str]:
    start = points[str(values["from"])]
    if method == "bearing":
        return towards(start, float(values["bearing"]), float(values["metres"])), ""
    if method == "base line":
        end = points[str(values["towards"])]
        chainage, offset = float(values["chainage"]), float(values["offset"])
        return offset_place(start, end, chainage, offset, str(values["side"])), ""
    end = points[str(values["and from"])]
    lengths = float(values["metres"]), float(values["metres again"])
    fix = taped_fix(start, lengths[0], end, lengths[1], str(values["side"]))
    weak = f"weak: the tapes cross at {fix.crossing:.0f} degrees; tape from a third point as well"
    return fix.place, weak if fix.is_weak else ""


def _fault(row: int, field: str, wrong: Wrong) -> Fault:
    return Fault("offsets", row, field, wrong.found, wrong.expected, wrong.mend)
