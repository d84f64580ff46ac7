"""features.csv, for people with a tape: one row a corner, in metres from the origin."""

from collections.abc import Iterable

import shapely
from shapely.geometry import LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry

from model.survey.attribute import REQUIRED, Attribute, Wrong
from model.survey.drafts import KIND, MOST_FEATURES, NAME, Draft, known_fields, too_many
from model.survey.faults import shown
from model.survey.feature import Feature
from model.survey.folder import Folder
from model.survey.kinds import KINDS
from model.survey.plus_minus import plus_minus_fields
from model.survey.settings import EAST, NORTH
from model.survey.table import RawRow, raw_rows, table_text

FILE = "features.csv"
MOST_CORNERS = 50_000
FEATURE = Attribute("feature", "", REQUIRED, meaning="rows with the same one make one feature")
FEWEST = {"Point": 1, "LineString": 2, "Polygon": 3}
_ATTRIBUTES = {one.name: one for kind in KINDS.values() for one in kind.attributes}
_ATTRIBUTES |= plus_minus_fields()
COLUMNS = (
    FEATURE,
    Attribute("kind", "", REQUIRED, choices=tuple(KINDS), meaning=KIND.meaning),
    NAME,
    EAST,
    NORTH,
    *(
        Attribute(name, _ATTRIBUTES[name].unit, "", meaning=_ATTRIBUTES[name].meaning)
        for name in known_fields()[2:]
    ),
)


def csv_drafts(folder: Folder, name: str) -> list[Draft]:
    """The features of the CSV file; what cannot be read is noted."""
    groups: dict[str, list[RawRow]] = {}
    for row in raw_rows(folder, name, COLUMNS, MOST_CORNERS) or []:
        label = folder.value(name, row.number, FEATURE, row.cells.get("feature"))
        if label is not None:
            groups.setdefault(str(label), []).append(row)
        if len(groups) > MOST_FEATURES:
            folder.fault(name, None, "feature", too_many(len(groups)))
            return []
    drafts = [_draft(folder, name, rows) for rows in groups.values()]
    return [draft for draft in drafts if draft is not None]


def csv_text(features: Iterable[Feature]) -> str:
    """Features as rows of corners, to 0.1 mm; needs features without holes (`fits_csv`)."""
    features = list(features)
    used = {name for one in features for name in one.attributes}
    columns = ["feature", "kind", "name", "x_m", "y_m"]
    columns += [name for name in known_fields()[2:] if name in used]
    rows: list[list[object]] = []
    for number, feature in enumerate(features, start=1):
        attributes = [feature.attributes.get(name, "") for name in columns[5:]]
        head: list[object] = [number, feature.kind, feature.name]
        for corner, (x, y) in enumerate(_corners(feature.geometry)):
            place = [round(x, 4), round(y, 4)]
            rows.append(head + place + (attributes if corner == 0 else [""] * len(attributes)))
    return table_text(columns, rows)


def fits_csv(features: Iterable[Feature]) -> bool:
    """Whether the CSV form can hold the features: no outline has a hole."""
    return not any(shapely.get_num_interior_rings(one.geometry) for one in features)


def _corners(geometry: BaseGeometry) -> list[tuple[float, float]]:
    points = shapely.get_coordinates(geometry).tolist()
    return points[:-1] if geometry.geom_type == "Polygon" else points


def _draft(folder: Folder, name: str, rows: list[RawRow]) -> Draft | None:
    first = rows[0]
    fields = {
        key: cell for key, cell in first.cells.items() if key not in ("feature", "x_m", "y_m")
    }
    _note_contradictions(folder, name, fields, rows[1:])
    points = [_point(folder, name, row) for row in rows]
    places = [point for point in points if point is not None]
    kind = KINDS.get(str(fields.get("kind")))
    if kind is None:
        return Draft(name, first.number, Point(places[0]) if places else Point(), fields)
    if len(places) < len(points):
        return None
    shape = kind.geometry[0]
    if len(places) < FEWEST[shape] or (shape == "Point" and len(places) > 1):
        number = "1 row" if shape == "Point" else f"{FEWEST[shape]} rows or more"
        mend = "giving each its own feature" if shape == "Point" else "adding its other corners"
        wrong = Wrong(f"{len(places)} rows", f"{number} for a {kind.name}", mend)
        folder.fault(name, first.number, "feature", wrong)
        return None
    return Draft(name, first.number, _geometry(shape, places), fields)


def _geometry(shape: str, places: list[tuple[float, float]]) -> BaseGeometry:
    if shape == "Point":
        return Point(places[0])
    return LineString(places) if shape == "LineString" else Polygon(places)


def _point(folder: Folder, name: str, row: RawRow) -> tuple[float, float] | None:
    x = folder.value(name, row.number, EAST, row.cells.get("x_m"))
    y = folder.value(name, row.number, NORTH, row.cells.get("y_m"))
    return None if x is None or y is None else (float(x), float(y))


def _note_contradictions(
    folder: Folder, name: str, first: dict[str, str], later: list[RawRow]
) -> None:
    """A later row may leave kind, name and attributes blank or repeat those of the first."""
    for row in later:
        for key, cell in row.cells.items():
            if key in ("feature", "x_m", "y_m") or cell == first.get(key):
                continue
            expected = f"{shown(first.get(key))} as in the feature's first row, or a blank"
            wrong = Wrong(shown(cell), expected, "leaving it blank or giving it its own feature")
            folder.fault(name, row.number, key, wrong)
