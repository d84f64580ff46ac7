"""site.toml: every table and key it may hold, its reading and its text."""

import re
from collections.abc import Mapping
from functools import lru_cache
from typing import Any

import tomli_w

from model.survey.attribute import REQUIRED, Attribute, Value, Wrong
from model.survey.faults import listed, nearest_name, shown
from model.survey.folder import Folder
from model.survey.plus_minus import SOIL_PLUS_MINUSES
from model.survey.soil import SOIL_ATTRIBUTES
from model.survey.toml_text import toml_tables
from model.survey.wind import WIND_ATTRIBUTES

FILE = "site.toml"
REACH = 20_000.0  # m from the origin; what lies further off is no part of a site
ALTITUDES = (-430, 6000)  # m; from the shore of the Dead Sea to above the highest orchards

EAST = Attribute("x_m", "m", REQUIRED, -REACH, REACH, (), "east of the origin")
NORTH = Attribute("y_m", "m", REQUIRED, -REACH, REACH, (), "north of the origin")

SETTINGS: dict[str, tuple[Attribute, ...]] = {
    "": (
        Attribute("name", "", REQUIRED, meaning="what the site is called"),
        Attribute("latitude", "degrees north", REQUIRED, -75, 75, (), "of the origin, WGS 84"),
        Attribute("longitude", "degrees east", REQUIRED, -180, 180, (), "of the origin, WGS 84"),
        Attribute("altitude_m", "m", REQUIRED, *ALTITUDES, (), "of the origin above sea level"),
        Attribute("timezone", "", REQUIRED, meaning="by its name, such as Europe/Dublin"),
        Attribute("grid_m", "m", 2.0, 0.25, 50, (), "edge of the square cells that are judged"),
    ),
    "hub": (EAST, NORTH),
    "soil": (*SOIL_ATTRIBUTES, *SOIL_PLUS_MINUSES),
    "wind": WIND_ATTRIBUTES,
    "heights": (
        Attribute("slope_percent", "%", REQUIRED, 0, 200, (), "rise over run, the same everywhere"),
        Attribute(
            "aspect_deg", "degrees", REQUIRED, 0, 360, (), "bearing the slope faces downhill"
        ),
    ),
    "weather": (
        Attribute(
            "seed",
            "",
            float("nan"),
            0,
            2**31,
            (),
            "the same seed draws the same weather; left out, 1",
            True,
        ),
        Attribute("years", "years", 30.0, 10, 200, (), "length of the series drawn", True),
        Attribute(
            "station_altitude_m",
            "m",
            float("nan"),
            *ALTITUDES,
            (),
            "of the weather station; left out, the EPW file's own or the site's",
        ),
    ),
}
MEANINGS = {
    "": "The site. Its origin is a peg that can be found again: all metres are measured from it.",
    "hub": "Where one sets out from with tools and comes back with fruit, most often the house.",
    "soil": "The soil in general; a soil_patch among the features overrides it where it lies.",
    "wind": "Where the wind comes from, when the weather file does not say.",
    "heights": "One slope for the whole site, when no heights were measured.",
    "weather": "How the weather file is used.",
}

Settings = dict[str, dict[str, Value]]


def read_settings(folder: Folder) -> Settings:
    """The tables of site.toml that stand in it with every value right; the faults are noted."""
    if not folder.present([FILE]):
        wrong = Wrong("no such file", "the site's name and place", "running: treestead new FOLDER")
        folder.fault(FILE, None, "", wrong)
        return {}
    text = folder.text(FILE)
    tables = _tables(folder, text) if text is not None else None
    if text is None or tables is None:
        return {}
    _note_unknown(folder, text, tables)
    settings: Settings = {}
    for table, attributes in SETTINGS.items():
        raw = tables if table == "" else tables.get(table)
        if raw is None:
            continue
        if not isinstance(raw, dict):
            wrong = Wrong(shown(raw), f"a table [{table}]", f"writing [{table}] on its own line")
            folder.fault(FILE, _line(text, "", table), table, wrong)
            continue
        settings[table] = _values(folder, text, table, attributes, raw)
    return settings


def settings_text(settings: Mapping[str, Mapping[str, Value]]) -> str:
    """The text of site.toml, each key explained in a comment."""
    parts = []
    for table, attributes in SETTINGS.items():
        values = settings.get(table)
        if values is None:
            continue
        lines = [f"# {MEANINGS[table]}"]
        if table:
            lines.append(f"[{table}]")
        lines += [_line_text(one, values[one.name]) for one in attributes if one.name in values]
        parts.append("\n".join(lines))
    return "\n\n".join(parts) + "\n"


def _line_text(attribute: Attribute, value: Value) -> str:
    if attribute.whole:
        value = int(value)
    meaning = f"{attribute.meaning} ({attribute.unit})" if attribute.unit else attribute.meaning
    return f"{tomli_w.dumps({attribute.name: value}).strip()}  # {meaning}"


def _tables(folder: Folder, text: str) -> dict[str, Any] | None:
    try:
        return toml_tables(text)
    except (ValueError, RecursionError) as error:
        row = re.search(r"at line (\d+)", str(error))
        wrong = Wrong(
            f"a mistake ({str(error)[:80]})",
            'lines such as name = "Long Meadow"',
            "putting text in quotation marks and one key on a line",
        )
        folder.fault(FILE, int(row[1]) if row else None, "", wrong)
        return None


def _note_unknown(folder: Folder, text: str, tables: dict[str, Any]) -> None:
    known = [one.name for one in SETTINGS[""]] + [table for table in SETTINGS if table]
    _note_unknown_keys(folder, text, "", tables, known)
    for table, attributes in SETTINGS.items():
        inner = tables.get(table)
        if table and isinstance(inner, dict):
            _note_unknown_keys(folder, text, table, inner, [one.name for one in attributes])


def _note_unknown_keys(
    folder: Folder, text: str, table: str, found: dict[str, Any], known: list[str]
) -> None:
    for key in found:
        if key not in known:
            mend = nearest_name(key, known) + " or deleting the line"
            wrong = Wrong(f"the key {shown(key)}", listed(known), mend)
            folder.fault(FILE, _line(text, table, key), key, wrong)


def _values(
    folder: Folder, text: str, table: str, attributes: tuple[Attribute, ...], raw: dict[str, Any]
) -> dict[str, Value]:
    values = {}
    for attribute in attributes:
        row = _line(text, table, attribute.name)
        value = folder.value(FILE, row, attribute, raw.get(attribute.name))
        if value is not None:
            values[attribute.name] = value
    return values


def complete(settings: Settings, table: str) -> dict[str, Value] | None:
    """A table's values when all of them are right, else None."""
    values = settings.get(table)
    return values if values is not None and len(values) == len(SETTINGS[table]) else None


def _line(text: str, table: str, key: str) -> int | None:
    """The line a key (or a table's heading, when the table is "") stands on, None if not found."""
    return _lines(text).get((table, key))


@lru_cache(maxsize=1)
def _lines(text: str) -> dict[tuple[str, str], int]:
    """The line of every table and key; kept, as one file's faults ask for many."""
    lines: dict[tuple[str, str], int] = {}
    current = ""
    for number, line in enumerate(text.splitlines(), start=1):
        if heading := re.match(r"\s*\[\s*([\w-]+)\s*\]", line):
            current = heading[1]
            lines.setdefault(("", current), number)
        elif "=" in line:
            key = line.partition("=")[0].strip().strip("\"'")
            lines.setdefault((current, key), number)
    return lines
