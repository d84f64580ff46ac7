"""Hourly weather in the EPW format: eight lines of header, then 35 columns an hour.

References
----------
EnergyPlus (2023), Auxiliary Programs, chapter "EnergyPlus Weather File (EPW) Data Dictionary":
columns, missing codes, hours numbered 1 to 24 by their end, local standard time.
"""

import csv
import io
from dataclasses import dataclass

import numpy as np
import pandas as pd

from model.survey.attribute import Attribute, Wrong, checked_value
from model.survey.faults import shown
from model.survey.folder import Folder
from model.survey.settings import ALTITUDES
from model.survey.weather_csv import NOT_KNOWN

FILE = "weather.epw"
HEADER_LINES = 8
LEAP_YEAR = 2000
HOURS_A_YEAR = 8760


@dataclass(frozen=True)
class Column:
    """One column of an hour: its place, the range that is possible, the code for missing."""

    name: str
    place: int
    low: float
    high: float
    missing: float


COLUMNS = (
    Column("temperature", 6, -70, 70, 99.9),
    Column("humidity", 8, 0, 110, 999),
    Column("wind", 21, 0, 80, 999),
    Column("wind_direction", 20, 0, 360, 999),
    Column("radiation", 13, 0, 2000, 9999),
    Column("rain", 33, 0, 400, 999),
)
SHORTEST_LINE = 22  # cells, up to the wind; the columns after it are left out of some files
LONGEST_LINE = 5_000  # letters; the comments of the header are the longest
MOST_HOURS = 120 * HOURS_A_YEAR
MOST_CELLS = 35  # of an hour; what stands after them is not kept
LATITUDE = Attribute("LOCATION", "degrees north", NOT_KNOWN, -90, 90)
LONGITUDE = Attribute("LOCATION", "degrees east", NOT_KNOWN, -180, 180)
ELEVATION = Attribute("LOCATION", "m", NOT_KNOWN, *ALTITUDES)


@dataclass(frozen=True)
class Station:
    """Where the weather was measured; NaN where the header does not say."""

    latitude: float
    longitude: float
    altitude: float


def epw_weather(folder: Folder) -> tuple[Station, pd.DataFrame] | None:
    """The station and its hours by the START of each in local standard time, None if at fault."""
    lines = _lines(folder)
    station = _station(folder, lines) if lines else None
    if lines is None or station is None:
        return None
    before = len(folder.faults)
    rows = np.arange(HEADER_LINES, len(lines)) + 1
    hours = lines[HEADER_LINES:]
    for row, cells in zip(rows.tolist(), hours, strict=True):
        if len(cells) < SHORTEST_LINE:
            expected = f"{SHORTEST_LINE} to 35"
            wrong = Wrong(f"{len(cells)} cells", expected, "fetching the file again")
            folder.fault(FILE, row, "", wrong)
    if len(folder.faults) > before:
        return None
    index = _times(folder, hours)
    columns = {column.name: _column(folder, column, hours) for column in COLUMNS}
    if index is None or len(folder.faults) > before:
        return None
    table = pd.DataFrame(columns, index=index)
    kept = [name for name in table.columns if table[name].notna().any()]
    return station, table[kept]


def _lines(folder: Folder) -> list[list[str]] | None:
    text = folder.text(FILE)
    if text is None:
        return None
    if _is_too_large(folder, text):
        return None
    try:
        lines = [line[:MOST_CELLS] for line in csv.reader(io.StringIO(text)) if line]
    except csv.Error as error:
        folder.fault(FILE, None, "", Wrong(str(error), "an EPW file", "fetching it again"))
        return None
    lines = lines or [[""]]
    hours = len(lines) - HEADER_LINES
    if lines[0][0].strip().upper() != "LOCATION" or hours < HOURS_A_YEAR:
        wrong = Wrong(
            f"{shown(lines[0][0])} and {max(hours, 0)} hours",
            f"LOCATION, eight lines of header and {HOURS_A_YEAR} hours or more",
            "fetching the file again",
        )
        folder.fault(FILE, 1, "LOCATION", wrong)
        return None
    return lines


def _is_too_large(folder: Folder, text: str) -> bool:
    """Whether a text has more lines, or longer ones, than are taken apart; noted."""
    lines = text.splitlines()
    if len(lines) > MOST_HOURS:
        wrong = Wrong(f"{len(lines):,} lines", f"at most {MOST_HOURS:,}", "cutting it to 100 years")
        folder.fault(FILE, None, "", wrong)
        return True
    for row, line in enumerate(lines, start=1):
        if len(line) > LONGEST_LINE:
            wrong = Wrong(
                f"{len(line):,} letters", f"at most {LONGEST_LINE:,}", "fetching it again"
            )
            folder.fault(FILE, row, "", wrong)
            return True
    return False


def _station(folder: Folder, lines: list[list[str]]) -> Station | None:
    cells = lines[0] + [""] * 10
    values = [
        folder.value(FILE, 1, attribute, cells[place])
        for attribute, place in ((LATITUDE, 6), (LONGITUDE, 7), (ELEVATION, 9))
    ]
    known = [float(value) for value in values if value is not None]
    return Station(*known) if len(known) == len(values) else None


def _times(folder: Folder, hours: list[list[str]]) -> pd.DatetimeIndex | None:
    """The start of each hour; months taken from several years are put into one."""
    no_date = np.array([not _is_date(cells) for cells in hours])
    if no_date.any():
        _note_first(folder, hours, no_date)
        return None
    year, month, day, hour = np.array([cells[:4] for cells in hours]).astype(float).T
    times = _starts(year, month, day, hour)
    if (_gaps(times) | times.isna()).any():
        leap = ((month == 2) & (day == 29)).any()
        times = _starts(np.full_like(year, LEAP_YEAR if leap else LEAP_YEAR + 1), month, day, hour)
    wrong = _gaps(times) | times.isna()
    _note_first(folder, hours, wrong)
    return None if wrong.any() else times


def _starts(
    year: np.ndarray, month: np.ndarray, day: np.ndarray, hour: np.ndarray
) -> pd.DatetimeIndex:
    right = (hour >= 1) & (hour <= 24)
    parts = pd.DataFrame({"year": year, "month": month, "day": day, "hour": hour - 1})
    times = pd.DatetimeIndex(pd.to_datetime(parts, errors="coerce"))
    return pd.DatetimeIndex(times.where(right))


def _gaps(times: pd.DatetimeIndex) -> np.ndarray:
    """Where an hour does not follow the one before; 29 February may be left out."""
    steps = np.diff(times.to_numpy()) / np.timedelta64(1, "h")
    leap_day_left_out = (steps == 25) & (times.month[1:] == 3) & (times.day[1:] == 1)
    return np.concatenate([[False], (steps != 1) & ~leap_day_left_out])


def _column(folder: Folder, column: Column, hours: list[list[str]]) -> np.ndarray:
    """The values of a column, NaN where missing; runs of impossible ones are noted."""
    cells = [line[column.place].strip() if len(line) > column.place else "" for line in hours]
    values = _numbers(cells)
    missing = np.isclose(values, column.missing) | np.array([cell == "" for cell in cells])
    wrong = ~missing & ~((values >= column.low) & (values <= column.high))
    if column.name == "temperature":
        wrong |= missing
    _note_runs(folder, column, cells, wrong)
    return np.where(missing, np.nan, values)


def _numbers(cells: list[str]) -> np.ndarray:
    """The cells as numbers, NaN where one is none; cell by cell only when some cell is none."""
    try:
        return np.array([cell or "nan" for cell in cells]).astype(float)
    except ValueError:
        plain = Attribute("", "", NOT_KNOWN, -1e9, 1e9)
        values = [checked_value(plain, cell) for cell in cells]
        return np.array([value if isinstance(value, float) else NOT_KNOWN for value in values])


def _note_runs(folder: Folder, column: Column, cells: list[str], wrong: np.ndarray) -> None:
    """One fault for each run of hours that are wrong."""
    edges = np.flatnonzero(np.diff(np.concatenate([[False], wrong, [False]]).astype(int)))
    for start, stop in edges.reshape(-1, 2).tolist():
        more = f" and {stop - start - 1} hours after it" if stop - start > 1 else ""
        expected = f"a number from {column.low:g} to {column.high:g}"
        mend = "filling the gap from a neighbouring hour or station"
        found = Wrong(shown(cells[start]) + more, expected, mend)
        folder.fault(FILE, HEADER_LINES + start + 1, column.name, found)


def _note_first(folder: Folder, hours: list[list[str]], wrong: np.ndarray) -> None:
    """The first hour out of step, as all after it are."""
    for number in np.flatnonzero(wrong)[:1].tolist():
        found = "-".join(cell.strip() for cell in hours[number][:4])
        expected = "year, month, day and hour (1 to 24) that follow the row before by one hour"
        mend = "sorting the hours or fetching the file again"
        folder.fault(FILE, HEADER_LINES + number + 1, "hour", Wrong(shown(found), expected, mend))


def _is_date(cells: list[str]) -> bool:
    return all(cell.strip().isdecimal() and cell.isascii() and len(cell) < 9 for cell in cells[:4])
