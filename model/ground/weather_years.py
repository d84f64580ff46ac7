"""A site's weather as whole years of hours, whatever kind of file it came from."""

from dataclasses import dataclass

import numpy as np
import pandas as pd

from model.land import temperature
from model.land.weather_series import Normals, daily_series
from model.survey.weather import Weather

DAYS = 365
LONGEST_GAP = 3  # days bridged between their neighbours; a year with a longer gap is not known


@dataclass(frozen=True)
class WeatherYears:
    """Years of 365 days (29 February left out).

    `hourly` (year, day, 24) [C], `rain` (year,) [mm]; NaN in years that are not known. Years follow
    one another, so that a winter is never sewn together across a gap.
    """

    hourly: np.ndarray
    rain: np.ndarray


def weather_years(weather: Weather, latitude: float) -> WeatherYears:
    """Whole years of hourly temperature and rain from hourly, daily or monthly records.

    Raises ValueError when the record holds no whole year.
    """
    if weather.kind == "hourly":
        return _from_hours(weather.table)
    tmin, tmax, rain = _drawn(weather) if weather.kind == "monthly" else _whole_years(weather.table)
    day_of_year = np.tile(np.arange(1, DAYS + 1), len(tmin))
    hourly = temperature.hourly_from_daily(tmin.ravel(), tmax.ravel(), latitude, day_of_year)
    return WeatherYears(hourly.reshape(len(tmin), DAYS, 24), rain.sum(axis=1))


def _drawn(weather: Weather) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Stochastic years drawn from monthly normals with the recorded seed."""
    normals = Normals(**{str(name): weather.table[name].to_numpy(float) for name in weather.table})
    series = daily_series(normals, weather.years, weather.seed or 0)
    return series.tmin, series.tmax, series.rain


def _whole_years(table: pd.DataFrame) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Years of a daily record; those not complete but for short gaps are not known (NaN)."""
    days = _without_leap_days(table)
    when = pd.DatetimeIndex(days.index)
    years = []
    for year in range(when.year.min(), when.year.max() + 1):
        calendar = pd.date_range(f"{year}-01-01", f"{year}-12-31", freq="D")
        whole = _without_leap_days(days.reindex(calendar)[["tmin", "tmax", "rain"]])
        whole[["tmin", "tmax"]] = whole[["tmin", "tmax"]].interpolate(limit=LONGEST_GAP)
        known = whole[["tmin", "tmax"]].notna().all(axis=None)
        years.append(whole.to_numpy() if known else np.full(whole.shape, np.nan))
    if np.isnan(years).all():
        raise ValueError("the weather record must hold at least one whole calendar year")
    tmin, tmax, rain = np.moveaxis(np.stack(years), 2, 0)
    return tmin, tmax, rain


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
    hourly = np.stack([year["temperature"].to_numpy(float) for year in years])
    rain = [year["rain"].sum() if "rain" in year else np.nan for year in years]
    return WeatherYears(hourly.reshape(len(years), DAYS, 24), np.array(rain))


def _without_leap_days(table: pd.DataFrame) -> pd.DataFrame:
    """The record without 29 February, so that every year has 365 days."""
    when = pd.DatetimeIndex(table.index)
    return table[~((when.month == 2) & (when.day == 29))]
