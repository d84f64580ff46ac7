"""The README.txt of a survey folder: every file, column, kind and unit, each from its place."""

import math
import textwrap
from collections.abc import Iterable

from model.survey import features_csv, heights_csv, lists, weather_csv
from model.survey.attribute import Attribute, Required, Value
from model.survey.features_file import SHAPEFILES
from model.survey.kinds import KINDS, FeatureKind
from model.survey.plus_minus import plus_minus_fields
from model.survey.settings import FILE, MEANINGS, REACH, SETTINGS

WIDTH = 96
DRAWN = {"Point": "a point", "LineString": "a line", "Polygon": "an area"}

OPENING = """\
A survey of one piece of land, for judging which fruit tree should stand where.

Only site.toml is needed. Every other file may be left out; what cannot be judged without it is
then said in words. Check the folder at any time, all faults are listed at once:

    treestead check FOLDER

Metres (x_m, y_m) are measured east and north of one peg, the origin, whose latitude and longitude
stand in site.toml. CSV files have commas between the cells, a point before the decimals, one row
of column names first, and are saved as UTF-8. A column marked * must be filled in.

What was written here to begin with is an example. Put your own land in its place, or delete it.
"""

CLOSING = """\
Digging, wires and heights
    A survey never shows every pipe and cable. Before anyone digs, have services located and ask
    their operators; keep the distances they and the local rules give; leave work near wires, on
    steep ground and with large trees to people licensed for it.
"""


def readme_text() -> str:
    """The whole text."""
    sections = [OPENING, _settings(), _features(), _heights(), _weather(), _lists(), CLOSING]
    return "\n".join(sections)


def _settings() -> str:
    parts = [f"{FILE}\n"]
    for table, attributes in SETTINGS.items():
        heading = f"[{table}] " if table else ""
        parts.append(_wrapped(f"{heading}{MEANINGS[table]}", 4) + _rows(attributes, 8))
    return "".join(parts)


def _features() -> str:
    columns = features_csv.COLUMNS[:5]
    text = _wrapped(
        "What stands on the land and near it. One of: features.csv, for people with a tape; "
        "features.geojson (WGS 84, longitude first); features.gpkg or shapefiles "
        f"({', '.join(SHAPEFILES)}) in any coordinate system. Each feature has a kind, may have a "
        f"name, and has the attributes of its kind. All lie within {REACH / 1000:g} km of the "
        "origin. In features.csv rows with the same `feature` are the corners of one line or area, "
        "in order; its other columns are read from its first row.",
        4,
    )
    kinds = "".join(_kind(kind) for kind in KINDS.values())
    attributes = f"\n    The kinds and their attributes:\n{kinds}{_plus_minuses()}"
    return f"features.csv\n{text}{_rows(columns, 8)}{attributes}"


def _plus_minuses() -> str:
    text = _wrapped(
        "How far a figure may be off, where it is known: beside a kind's numeric attribute its "
        "plus-minus may stand, as in height_m 5 and height_m_plus_minus 1, five metres give or "
        "take one. 19 times in 20 the true figure lies within it. Left out, a usual one is "
        "assumed, and said. A shapefile's ten-letter field names are too short for some of these.",
        4,
    )
    return text + _rows(plus_minus_fields().values(), 8)


def _kind(kind: FeatureKind) -> str:
    shape = " or ".join(DRAWN[one] for one in kind.geometry)
    return _wrapped(f"{kind.name} ({shape}): {kind.meaning}", 4) + _rows(kind.attributes, 8)


def _heights() -> str:
    text = _wrapped(
        "Heights of the ground: heights.csv; or heights.tif, a GeoTIFF with one band in metres, in "
        "any coordinate system; or one slope under [heights] in site.toml. Fill in "
        "heights.example.csv and rename it to heights.csv.",
        4,
    )
    return f"heights.csv\n{text}{_rows(heights_csv.COLUMNS, 8)}"


def _weather() -> str:
    daily = _wrapped(
        "A station's days in order. Days and cells may be missing; one whole calendar year at "
        "least must have no gap longer than three days.",
        4,
    )
    monthly = _wrapped(
        "The twelve monthly normals of a station, from which days are drawn. Fill in "
        "weather_monthly.example.csv and rename it to weather_monthly.csv.",
        4,
    )
    hourly = _wrapped(
        "Or weather.epw: hourly weather in the open EPW format, local standard time. One of the "
        "three, not several.",
        4,
    )
    return (
        f"weather_monthly.csv\n{monthly}{_rows(weather_csv.MONTHLY_COLUMNS, 8)}\n"
        f"weather_daily.csv\n{daily}{_rows(weather_csv.DAILY_COLUMNS, 8)}\n"
        f"weather.epw\n{hourly}"
    )


def _lists() -> str:
    pegs = _wrapped("Pegs: places that are judged by name. They lie inside the boundary.", 4)
    trees = _wrapped("The short list of trees to choose from, a cultivar on a rootstock a row.", 4)
    return (
        f"{lists.SPOTS_FILE}\n{pegs}{_rows(lists.SPOT_COLUMNS, 8)}\n"
        f"{lists.OPTIONS_FILE}\n{trees}{_rows(lists.OPTION_COLUMNS, 8)}"
    )


def _rows(attributes: Iterable[Attribute], indent: int) -> str:
    return "".join(_wrapped(_row(attribute), indent) for attribute in attributes)


def _row(attribute: Attribute) -> str:
    star = "*" if isinstance(attribute.default, Required) else ""
    unit = f" [{attribute.unit}]" if attribute.unit else ""
    parts = [attribute.meaning] if attribute.meaning else []
    if attribute.choices:
        parts.append("one of " + ", ".join(attribute.choices))
    elif attribute.is_number:
        parts.append(f"{attribute.low:,g} to {attribute.high:,g}")
    default = attribute.default
    if not isinstance(default, Required) and default != "" and not _is_nan(default):
        parts.append(
            f"left out: {default:g}" if isinstance(default, float) else f"left out: {default}"
        )
    return f"{attribute.name}{star}{unit}: {'; '.join(parts)}"


def _is_nan(value: Value) -> bool:
    return isinstance(value, float) and math.isnan(value)


def _wrapped(text: str, indent: int) -> str:
    first = " " * indent
    return textwrap.fill(text, WIDTH, initial_indent=first, subsequent_indent=first + "    ") + "\n"
