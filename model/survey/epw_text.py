"""An hourly record written as an EPW file, for records that did not come from one."""

import numpy as np
import pandas as pd

from model.csv_text import disarmed
from model.survey.epw import COLUMNS, Station

CELLS = 35
# the missing code of each column from dry bulb on, as the data dictionary gives them
MISSING = (
    *("99.9", "99.9", "999", "999999"),  # temperatures, humidity, pressure
    *("9999", "9999", "9999", "9999", "9999", "9999"),  # radiation
    *("999999", "999999", "999999", "9999"),  # light
    *("999", "999", "99", "99", "9999", "99999"),  # wind, cloud, visibility, ceiling
    *("9", "999999999", "999", ".999", "999", "99"),  # weather seen, water, haze, snow
    *("999", "999", "99"),  # albedo, rain
)
HEADER = """\
DESIGN CONDITIONS,0
TYPICAL/EXTREME PERIODS,0
GROUND TEMPERATURES,0
HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0
COMMENTS 1,written by Treestead; hours in local standard time
COMMENTS 2,cells that were not measured hold their missing code
DATA PERIODS,1,1,Data,Sunday,1/1,12/31
"""


def epw_text(table: pd.DataFrame, station: Station, name: str, hours_from_utc: float) -> str:
    """The text of an EPW file; every figure with all its digits."""
    place = disarmed("".join(letter for letter in name if letter not in ',"'))
    location = (
        f"LOCATION,{place},-,-,Treestead,-,{station.latitude!r},{station.longitude!r},"
        f"{hours_from_utc:g},{station.altitude!r}\n"
    )
    cells = np.empty((len(table), CELLS), dtype=object)
    times = pd.DatetimeIndex(table.index)
    cells[:, :4] = np.column_stack([times.year, times.month, times.day, times.hour + 1])
    cells[:, 4], cells[:, 5] = "0", "?9"
    cells[:, 6:] = MISSING
    for column in COLUMNS:
        if column.name in table:
            values = table[column.name].to_numpy(float)
            known = np.isfinite(values)
            cells[known, column.place] = [repr(value) for value in values[known].tolist()]
    return location + HEADER + "\n".join(",".join(map(str, line)) for line in cells.tolist()) + "\n"
