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
LONGEST_GAP = 3  # days
MOST_DAYS = 40_000  # 110 years, more than any orchard has seen
FIRST_YEAR, LAST_YEAR = 1650, 2200  # thermometers are not older; some records are projections
MEND_DAY = "writing year-month-day"
DAILY_ALWAYS = ("tmin", "tmax", "rain")
MONTHLY_ALWAYS = ("tmin", "tmax", "tmin_sd", "tmax_sd", "rain", "rain_days")
_COLDEST, _HOTTEST = -70, 60
DATE = Attribute("date", "", REQUIRED, meaning="the day as 2024-03-31")
DAILY_COLUMNS = (
    DATE,
    Attribute("tmin", "degrees C", NOT_KNOWN, _COLDEST, _HOTTEST, (), "lowest temperature"),
    Attribute("tmax", "degrees C", NOT_KNOWN, _COLDEST, _HOTTEST, (), "highest temperature"),
    Attribute("rain", "mm", NOT_KNOWN, 0, 2000, (), "rain and melted snow of the day"),
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
    rows = checked_rows(folder, DAILY_FILE, DAILY_COLUMNS, MOST_DAYS)
    days = [_day(folder, row) for row in rows]
    _note_disorder(folder, rows, days)
    _note_crossed(folder, DAILY_FILE, rows)
    if len(folder.faults) > before:
        return None
    table = _table(rows, DAILY_COLUMNS, pd.DatetimeIndex(days, name="date"), DAILY_ALWAYS)
    if not _holds_a_year(table):
        found = f"{table['tmin'].notna().sum()} days with tmin"
        expected = f"a whole calendar year, its gaps of {LONGEST_GAP} days at most"
        wrong = Wrong(found, expected, "adding days, or giving the monthly normals instead")
        folder.fault(DAILY_FILE, None, "date", wrong)
    return table


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
    index = pd.Index(months, name="month")
    return _table(rows, MONTHLY_COLUMNS, index, MONTHLY_ALWAYS).sort_index()


def daily_text(table: pd.DataFrame) -> str:
    """The text of weather_daily.csv."""
    days = [day.date().isoformat() for day in table.index]
    return table_text(["date", *table.columns], _text_rows(days, table))


def monthly_text(table: pd.DataFrame) -> str:
    """The text of weather_monthly.csv."""
    return table_text(["month", *table.columns], _text_rows(list(table.index), table))


def _text_rows(index: list, table: pd.DataFrame) -> list[list[object]]:
    return [[key, *row] for key, row in zip(index, table.to_numpy(float).tolist(), strict=True)]


def _table(
    rows: list[Row], columns: tuple[Attribute, ...], index: pd.Index, always: tuple[str, ...]
) -> pd.DataFrame:
    """The columns that are always there, and those others that hold something."""
    data = {
        column.name: [row.number_of(column.name) for row in rows]
        for column in columns
        if column.is_number and column.name != index.name
    }
    table = pd.DataFrame(data, index=index, dtype=float)
    kept = [name for name in table.columns if name in always or table[name].notna().any()]
    return table[kept]


def _holds_a_year(table: pd.DataFrame) -> bool:
    """Whether some calendar year is complete but for short gaps."""
    for year in pd.DatetimeIndex(table.index).year.unique():
        days = pd.date_range(f"{year}-01-01", f"{year}-12-31", freq="D")
        filled = table[["tmin", "tmax"]].reindex(days).interpolate(limit=LONGEST_GAP)
        if filled.notna().all(axis=None):
            return True
    return False


def _day(folder: Folder, row: Row) -> date | None:
    text = row.text_of("date")
    try:
        day = date.fromisoformat(text)
    except ValueError:
        day = date.min
    if FIRST_YEAR <= day.year <= LAST_YEAR:
        return day
    expected = f"a day such as 2024-03-31, from {FIRST_YEAR} to {LAST_YEAR}"
    folder.fault(DAILY_FILE, row.number, "date", Wrong(shown(text), expected, MEND_DAY))
    return None


def _note_disorder(folder: Folder, rows: list[Row], days: list[date | None]) -> None:
    for row, before, day in zip(rows[1:], days, days[1:], strict=False):
        if before is not None and day is not None and day <= before:
            wrong = Wrong(f"{day} after {before}", "each day once, in order", "sorting the days")
            folder.fault(DAILY_FILE, row.number, "date", wrong)


def _note_crossed(folder: Folder, name: str, rows: list[Row]) -> None:
    for row in rows:
        low, high = row.number_of("tmin"), row.number_of("tmax")
        if low > high:
            wrong = Wrong(
                f"{low:g}, above tmax {high:g}", "tmin at most tmax", "exchanging the two"
            )
            folder.fault(name, row.number, "tmin", wrong)
