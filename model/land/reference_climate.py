"""A climate in which the flowering dates of fruit are well known: lowland England at 52 N.

Species are calibrated there, since that is where most of the dates were written down.
"""

import numpy as np
from numpy.typing import NDArray

from model.land.temperature import hourly_from_daily
from model.land.weather_series import DAYS_IN_MONTH, Normals, daily_series

LATITUDE = 52.0
# Monthly means of the Midlands and the south-east, 1991 to 2020, rounded: from memory of the Met
# Office's averages; day-to-day and year-to-year swings are common practice, no source. Rain
# plays no part.
NORMALS = Normals(
    tmin=(1.7, 1.6, 2.9, 4.6, 7.4, 10.3, 12.3, 12.2, 10.0, 7.3, 4.2, 2.0),
    tmax=(7.3, 8.0, 10.7, 13.8, 17.0, 20.0, 22.4, 22.0, 18.8, 14.5, 10.2, 7.6),
    tmin_sd=(4.0, 3.9, 3.6, 3.3, 3.1, 2.7, 2.4, 2.6, 3.1, 3.6, 3.9, 4.1),
    tmax_sd=(3.2, 3.2, 3.2, 3.4, 3.6, 3.6, 3.6, 3.3, 2.9, 2.7, 2.8, 3.1),
    rain=np.full(12, 55.0),
    rain_days=DAYS_IN_MONTH * 0.35,
    year_sd=(1.6, 1.7, 1.3, 1.1, 1.0, 1.0, 1.2, 1.1, 1.0, 1.1, 1.2, 1.6),
)
YEARS, SEED = 30, 52


def reference_hours() -> NDArray[np.float64]:
    """Hourly temperature of the reference climate's years, (year, 365, 24) [degrees C].

    Drawn from the normals above with a fixed seed: the same numbers each time.
    """
    series = daily_series(NORMALS, YEARS, SEED)
    day_of_year = np.tile(series.day_of_year, YEARS)
    hourly = hourly_from_daily(series.tmin.ravel(), series.tmax.ravel(), LATITUDE, day_of_year)
    return hourly.reshape(YEARS, -1, 24)
