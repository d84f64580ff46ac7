"""weather_daily.csv and weather_monthly.csv: a station's daily record, or its monthly normals."""

from datetime import date

import pandas as pd

from model.survey.attribute import REQUIRED, Attribute, Wrong
from model.survey.faults import shown
from model.survey.folder import Folder
from model.survey.table import Row, checked_rows, table_text

DAILY_FILE = "weather_daily.csv"
MONTHLY_FILE = "weather_monthly.csv"
NOT_KNOWN = float("nan")
_COLDEST, _HOTTEST = -70, 60
DATE = Attribute("date", "", REQUIRED, meaning="the day as 2024-03-31")
TMIN = Attribute("tmin", "degrees C", REQUIRED, _COLDEST, _HOTTEST, (), "lowest temperature")
TMAX = Attribute("tmax", "degrees C", REQUIRED, _COLDEST, _HOTTEST, (), "highest temperature")
DAILY_COLUMNS = (
    DATE,
    TMIN,
    TMAX,
    Attribute("rain", "mm", REQUIRED, 0, 2000, (), "rain and melted snow of the day"),
    Attribute("humidity", "%", NOT_KNOWN, 0, 110, (), "mean relative humidity; may be left out"),
    Attribute("wind", "m/s", NOT_KNOWN, 0, 80, (), "mean wind; may be left out"),
    Attribute("radiation", "MJ/m2", NOT_KNOWN, 0, 60, (), "sun on the level; may be left out"),
)
_SPREAD = "standard deviation from day to day; 3 to 4 by the sea, 5 to 7 inland in winter"
MONTHLY_COLUMNS = (
    Attribute("month", "", REQUIRED, 1, 12, (), "1 is January", True),
    Attribute("tmin", "degrees C", REQUIRED, _COLDEST, _HOTTEST, (), "mean of the daily lowest"),
    Attribute("tmax", "degrees C", REQUIRED, _COLDEST, _HOTTEST, (), "mean of the daily highest"),
    Attribute("tmin_sd", "K", REQUIRED, 0, 20, (), f"of the daily lowest: {_SPREAD}"),
    Attribute("tmax_sd", "K", REQUIRED, 0, 20, (), f"of the daily highest: {_SPREAD}"),
    Attribute("rain", "mm", REQUIRED, 0, 5000, (), "rain and melted snow of the month"),
    Attribute("rain_days", "days", REQUIRED, 0, 31, (), "days with 0.2 mm or more"),
    Attribute(
        "year_sd",
        "K",
        NOT_KNOWN,
        0,
        10,
        (),
        "standard deviation of the month's mean from year to year; may be left out",
    ),
)


def daily_table(folder: Folder) -> pd.DataFrame | None:
    """The daily record by date, None with the faults noted."""
    before = len(folder.faults)
    rows = checked_rows(folder, DAILY_FILE, DAILY_COLUMNS)
    days = [_day(folder, row) for row in rows]
    _note_gaps(folder, rows, days)
    _note_crossed(folder, DAILY_FILE, rows)
    if len(folder.faults) == before and len(rows) < 365:
        wrong = Wrong(f"{len(rows)} days", "a year or more", "adding days, or giving the normals")
        folder.fault(DAILY_FILE, None, "date", wrong)
    if len(folder.faults) > before:
        return None
    return _table(rows, DAILY_COLUMNS, pd.DatetimeIndex(days, name="date"))


def monthly_table(folder: Folder) -> pd.DataFrame | None:
    """The twelve monthly normals, None with the faults noted."""
    before = len(folder.faults)
    rows = checked_rows(folder, MONTHLY_FILE, MONTHLY_COLUMNS)
    months = [int(row.number_of("month")) for row in rows]
    if len(folder.faults) == before and sorted(months) != list(range(1, 13)):
        found = "the months " + ", ".join(map(str, months))
        wrong = Wrong(found, "each of 1 to 12 once", "adding or deleting rows")
        folder.fault(MONTHLY_FILE, None, "month", wrong)
    _note_crossed(folder, MONTHLY_FILE, rows)
    if len(folder.faults) > before:
        return None
    return _table(rows, MONTHLY_COLUMNS, pd.Index(months, name="month")).sort_index()


def daily_text(table: pd.DataFrame) -> str:
    """The text of weather_daily.csv."""
    days = [day.date().isoformat() for day in table.index]
    return table_text(["date", *table.columns], _text_rows(days, table))


def monthly_text(table: pd.DataFrame) -> str:
    """The text of weather_monthly.csv."""
    return table_text(["month", *table.columns], _text_rows(list(table.index), table))


def _text_rows(index: list, table: pd.DataFrame) -> list[list[object]]:
    return [[key, *row] for key, row in zip(index, table.to_numpy(float).tolist(), strict=True)]


def _table(rows: list[Row], columns: tuple[Attribute, ...], index: pd.Index) -> pd.DataFrame:
    data = {
        column.name: [row.number_of(column.name) for row in rows]
        for column in columns
        if column.is_number and column.name != index.name
    }
    required = [column.name for column in columns if column.default is REQUIRED]
    table = pd.DataFrame(data, index=index)
    kept = [name for name in table if name in required or table[name].notna().any()]
    return table[kept]


def _day(folder: Folder, row: Row) -> date | None:
    text = row.text_of("date")
    try:
        return date.fromisoformat(text)
    except ValueError:
        wrong = Wrong(shown(text), "a day such as 2024-03-31", "writing year-month-day")
        folder.fault(DAILY_FILE, row.number, "date", wrong)
        return None


def _note_gaps(folder: Folder, rows: list[Row], days: list[date | None]) -> None:
    for row, before, day in zip(rows[1:], days, days[1:], strict=False):
        if before is None or day is None or (day - before).days == 1:
            continue
        wrong = Wrong(
            f"{day} after {before}",
            "each day once, in order, none left out",
            "sorting the days and filling the gap",
        )
        folder.fault(DAILY_FILE, row.number, "date", wrong)


def _note_crossed(folder: Folder, name: str, rows: list[Row]) -> None:
    for row in rows:
        low, high = row.number_of("tmin"), row.number_of("tmax")
        if low > high:
            wrong = Wrong(
                f"{low:g}, above tmax {high:g}", "tmin at most tmax", "exchanging the two"
            )
            folder.fault(name, row.number, "tmin", wrong)
