"""An invented year of hourly weather as an EPW file."""

import numpy as np

HEADER = """LOCATION,Invented Station,-,GBR,made up,999999,52.10,-3.20,0.0,71.0
DESIGN CONDITIONS,0
TYPICAL/EXTREME PERIODS,0
GROUND TEMPERATURES,0
HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0
COMMENTS 1,invented
COMMENTS 2,
DATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31
"""
DAYS_IN_MONTH = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)


def lines(years=(2003, 1999)):
    """One line an hour; the months alternate between the years, as in a typical year."""
    return [
        _line(years[month % len(years)], month, day, hour)
        for month, days in enumerate(DAYS_IN_MONTH, start=1)
        for day in range(1, days + 1)
        for hour in range(1, 25)
    ]


def _line(year, month, day, hour):
    warmth = 10 - 8 * np.cos(month / 12 * 2 * np.pi) - 4 * np.cos(hour / 24 * 2 * np.pi)
    sun = max(0, round(-500 * np.cos(hour / 24 * 2 * np.pi)))
    rain = 0.4 if (day + hour) % 7 == 0 else 0
    cells = [
        *(year, month, day, hour, 0, "?9?9?9"),
        *(f"{warmth:.1f}", 5.0, 80, 101000, 0, 0, 300, sun, 0, 0, 0, 0, 0, 0),
        *((day * 30) % 360, f"{day / 4:.1f}", 5, 5, 20, 7777, 9, "999999999", 10, 0.1, 0, 88),
        *(0.2, rain, 1),
    ]
    return ",".join(map(str, cells))


def text(rows=None):
    """The whole file."""
    return HEADER + "\n".join(rows if rows is not None else lines()) + "\n"
