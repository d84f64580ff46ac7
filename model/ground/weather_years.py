"""A site's weather as whole years of hours, whatever kind of file it came from."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
import pandas as pd

from model.land import temperature
from model.land.weather_series import DailySeries, Normals, daily_series
from model.survey.weather import Weather

DAYS = 365
SECONDS_A_DAY = 86400
AIR = ("humidity", "wind", "radiation")
LONGEST_GAP = 3  # days bridged between their neighbours; a year with a longer gap is not known


@dataclass(frozen=True)
class WeatherYears:
    """Years of 365 days (29 February left out), one after another.

    `hourly` (year, day, 24) [C], `tmin`, `tmax` [C] and `rain` [mm] (year, day); NaN in years that
    are not known, so that a winter is never sewn together across a gap. `air` holds what else the
    file has of each day, (year, day): humidity [%], wind [m/s], radiation [MJ/m2/day].
    """

    hourly: np.ndarray
    tmin: np.ndarray
    tmax: np.ndarray
    rain: np.ndarray
    air: Mapping[str, np.ndarray]


def weather_years(weather: Weather, latitude: float) -> WeatherYears:
    """Whole years of hourly temperature and daily rain from hourly, daily or monthly records.

    Raises ValueError when the record holds no whole year.
    """
    if weather.kind == "hourly":
        return _from_hours(weather.table)
    if weather.kind == "monthly":
        drawn = _drawn(weather)
        tmin, tmax, rain, air = drawn.tmin, drawn.tmax, drawn.rain, {}
    else:
        days = _whole_years(weather.table)
        tmin, tmax, rain = (days[name] for name in ("tmin", "tmax", "rain"))
        air = {name: days[name] for name in AIR if name in days}
    day_of_year = np.tile(np.arange(1, DAYS + 1), len(tmin))
    hourly = temperature.hourly_from_daily(tmin.ravel(), tmax.ravel(), latitude, day_of_year)
    return WeatherYears(hourly.reshape(len(tmin), DAYS, 24), tmin, tmax, rain, air)


def _drawn(weather: Weather) -> DailySeries:
    """Stochastic years drawn from monthly normals with the recorded seed."""
    normals = Normals(**{str(name): weather.table[name].to_numpy(float) for name in weather.table})
    return daily_series(normals, weather.years, weather.seed or 0)


def _whole_years(table: pd.DataFrame) -> dict[str, np.ndarray]:
    """Columns of a daily record as (year, day); years not whole but for short gaps are NaN."""
    days = _without_leap_days(table)
    when = pd.DatetimeIndex(days.index)
    years = []
    for year in range(when.year.min(), when.year.max() + 1):
        calendar = pd.date_range(f"{year}-01-01", f"{year}-12-31", freq="D")
        whole = _without_leap_days(days.reindex(calendar))
        whole[["tmin", "tmax"]] = whole[["tmin", "tmax"]].interpolate(limit=LONGEST_GAP)
        known = whole[["tmin", "tmax"]].notna().all(axis=None)
        years.append(whole if known else whole * np.nan)
    if all(year["tmin"].isna().all() for year in years):
        raise ValueError("the weather record must hold at least one whole calendar year")
    return {str(name): np.stack([year[name].to_numpy(float) for year in years]) for name in table}


def _from_hours(table: pd.DataFrame) -> WeatherYears:
    """The whole years of an hourly record."""
    hours = _without_leap_days(table)
    years = [
        record
        for _, record in hours.groupby(pd.DatetimeIndex(hours.index).year)
        if len(record) == DAYS * 24
    ]
    if not years:
        raise ValueError("the weather record must hold at least one whole calendar year of hours")
    columns = {
        str(name): np.stack([year[name].to_numpy(float).reshape(DAYS, 24) for year in years])
        for name in table
    }
    hourly = columns["temperature"]
    unknown = np.full(hourly.shape, np.nan)
    air = {name: columns[name].mean(axis=2) for name in AIR if name in columns}
    if "radiation" in air:
        air["radiation"] *= SECONDS_A_DAY / 1e6
    return WeatherYears(
        hourly,
        hourly.min(axis=2),
        hourly.max(axis=2),
        columns.get("rain", unknown).sum(axis=2),
        air,
    )


def _without_leap_days(table: pd.DataFrame) -> pd.DataFrame:
    """The record without 29 February, so that every year has 365 days."""
    when = pd.DatetimeIndex(table.index)
    return table[~((when.month == 2) & (when.day == 29))]
