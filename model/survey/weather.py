"""The weather record of a site."""

from dataclasses import dataclass

import numpy as np
import pandas as pd


@dataclass(frozen=True, eq=False)
class Weather:
    """Weather as measured at a station.

    `kind` says what a row of `table` is:

    - "hourly": indexed by the START of the hour in local standard time (no summer time), columns
      temperature [C] and, when the file has them, humidity [%], wind [m/s], wind_direction
      [degrees from north], radiation [W/m2, global on the level, mean of the hour], rain [mm];
    - "daily": indexed by date, columns tmin, tmax [C], rain [mm] and perhaps humidity [%],
      wind [m/s], radiation [MJ/m2 a day];
    - "monthly": indexed 1 to 12, columns tmin, tmax [C, means], tmin_sd, tmax_sd [K, from day to
      day], rain [mm], rain_days and perhaps year_sd [K, of a month's mean between years].

    `seed` and `years` are those of the daily series drawn from monthly normals.
    """

    kind: str
    table: pd.DataFrame
    station_altitude: float
    seed: int | None = None
    years: int = 30


def same_weather(one: Weather | None, other: Weather | None) -> bool:
    """Whether two records say the same, figures to 1e-9, not-known equal to not-known."""
    if one is None or other is None:
        return one is other
    return (
        (one.kind, one.station_altitude, one.seed, one.years)
        == (other.kind, other.station_altitude, other.seed, other.years)
        and list(one.table.columns) == list(other.table.columns)
        and len(one.table) == len(other.table)
        and bool((one.table.index == other.table.index).all())
        and np.allclose(
            one.table.to_numpy(float),
            other.table.to_numpy(float),
            rtol=0,
            atol=1e-9,
            equal_nan=True,
        )
    )
