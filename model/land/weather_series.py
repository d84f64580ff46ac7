"""Daily weather of many years, drawn at random from twelve monthly normals.

Rain and temperature are drawn apart: wet days are neither cooler nor milder than dry ones. Years
have 365 days. The series keeps the normals it was drawn from: each month's mean temperature and
rain over all years are theirs.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

DAYS_IN_MONTH = np.array([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])
MONTH_OF_DAY = np.repeat(np.arange(12), DAYS_IN_MONTH)

# Daily residuals of highest temperature, lowest temperature and radiation in standard deviations:
# today's = PERSISTENCE @ yesterday's + SHOCK @ new. Richardson & Wright (1984), WGEN: a model for
# generating daily weather variables, USDA ARS-8, after Richardson (1981), equation 5.
PERSISTENCE = np.array([[0.567, 0.086, -0.002], [0.253, 0.504, -0.050], [-0.006, -0.039, 0.244]])
SHOCK = np.array([[0.781, 0.0, 0.0], [0.328, 0.637, 0.0], [0.238, -0.341, 0.873]])
SETTLING_DAYS = 30  # thrown away, until the start no longer shows

# Chance of rain after a dry day as a share of the wet days' share, and what a wet day before adds;
# scale of the gamma law by the mean of a wet day. Geng, Penning de Vries & Supit (1986), A simple
# method for generating daily rainfall data, Agricultural and Forest Meteorology 36:363-376.
WET_AFTER_DRY = 0.75
WET_DAY_BEFORE = 0.25
GAMMA_SCALE, GAMMA_OFFSET = 1.83, -2.16


@dataclass(frozen=True)
class Normals:
    """Twelve monthly normals, January first.

    Attributes
    ----------
    tmin, tmax : arrays (12,) [degrees C]
        Mean daily lowest and highest temperature.
    tmin_sd, tmax_sd : arrays (12,) [K]
        Standard deviation from day to day within the month.
    rain : array (12,) [mm/month]
    rain_days : array (12,) [days/month]
    year_sd : array (12,) [K] or None
        Standard deviation of the month's mean temperature from year to year; None leaves what
        the day-to-day swings alone bring about.

    """

    tmin: ArrayLike
    tmax: ArrayLike
    tmin_sd: ArrayLike
    tmax_sd: ArrayLike
    rain: ArrayLike
    rain_days: ArrayLike
    year_sd: ArrayLike | None = None


@dataclass(frozen=True)
class DailySeries:
    """Daily weather of whole years.

    Attributes
    ----------
    year : array (year,)
        1 and on; no year of a calendar.
    day_of_year : array (365,)
        1 to 365.
    tmin, tmax : arrays (year, 365) [degrees C]
    rain : array (year, 365) [mm]
    seed : int
        The number that draws the same series again.

    """

    year: NDArray[np.int_]
    day_of_year: NDArray[np.int_]
    tmin: NDArray[np.float64]
    tmax: NDArray[np.float64]
    rain: NDArray[np.float64]
    seed: int


def daily_series(normals: Normals, years: int, seed: int) -> DailySeries:
    """Draw a daily series from monthly normals.

    Rain: a two-state first-order chain of wet and dry days, with gamma amounts. Temperature: an
    annual course through the normals, residuals that depend on the day before, and a shift of
    whole months from year to year where the normals state one.

    Parameters
    ----------
    normals : Normals
        What the series is drawn from and keeps.
    years : int
        How many; 30 or more show the bad ones.
    seed : int
        The same seed and normals give the same series, number for number.

    References
    ----------
    Richardson (1981), Stochastic simulation of daily precipitation, temperature, and solar
    radiation, Water Resources Research 17:182-190. Constants: beside them, above.

    """
    random = np.random.Generator(np.random.PCG64(seed))
    rain = _rain(normals, years, random)
    tmin, tmax = _temperatures(normals, years, random)
    return DailySeries(np.arange(1, years + 1), np.arange(1, 366), tmin, tmax, rain, seed)


def annual_course(monthly: ArrayLike) -> NDArray[np.float64]:
    """Course through the year with the given means of each month, (12,) to (365,), same unit.

    Straight between the months' middles, whose values are such that every mean comes out right.
    """
    starts = np.cumsum(DAYS_IN_MONTH) - DAYS_IN_MONTH
    middles = starts + DAYS_IN_MONTH / 2
    days = np.arange(365) + 0.5
    share = np.stack([np.interp(days, middles, unit, period=365) for unit in np.eye(12)], axis=1)
    return share @ np.linalg.solve(by_month(share.T).T, np.asarray(monthly, dtype=float))


def by_month(daily: ArrayLike) -> NDArray[np.float64]:
    """Mean of each month, (..., 365) to (..., 12), same unit."""
    starts = np.cumsum(DAYS_IN_MONTH) - DAYS_IN_MONTH
    return np.add.reduceat(np.asarray(daily, dtype=float), starts, axis=-1) / DAYS_IN_MONTH


def _temperatures(
    normals: Normals, years: int, random: np.random.Generator
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Lowest and highest temperature of each day, two arrays (year, 365) [degrees C]."""
    high, low = _residuals(years, random)
    deviations = np.stack(
        [
            low * np.maximum(annual_course(normals.tmin_sd), 0),
            high * np.maximum(annual_course(normals.tmax_sd), 0),
        ]
    )
    if normals.year_sd is not None:
        present = by_month(deviations.mean(axis=0)).std(axis=0)
        missing = np.sqrt(np.maximum(np.asarray(normals.year_sd) ** 2 - present**2, 0))
        shift = random.standard_normal((years, 12)) * missing
        deviations += shift[:, MONTH_OF_DAY]
    deviations -= by_month(deviations.mean(axis=1))[:, None, MONTH_OF_DAY]
    tmin = annual_course(normals.tmin) + deviations[0]
    tmax = annual_course(normals.tmax) + deviations[1]
    return np.minimum(tmin, tmax), np.maximum(tmin, tmax)


def _residuals(
    years: int, random: np.random.Generator
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Residuals of the highest and lowest temperature, two arrays (year, 365) [1]."""
    shocks = random.standard_normal((SETTLING_DAYS + years * 365, 3)) @ SHOCK.T
    states = np.empty_like(shocks)
    state = np.zeros(3)
    for day, shock in enumerate(shocks):
        state = PERSISTENCE @ state + shock
        states[day] = state
    high, low, _ = states[SETTLING_DAYS:].T.reshape(3, years, 365)
    return high, low


def _rain(normals: Normals, years: int, random: np.random.Generator) -> NDArray[np.float64]:
    """Rain of each day, (year, 365) [mm]."""
    rain, rain_days = (np.asarray(part, dtype=float) for part in (normals.rain, normals.rain_days))
    wet = _wet_days(rain_days / DAYS_IN_MONTH, random.random((years, 365)))
    mean_amount = np.divide(rain, rain_days, out=np.zeros(12), where=rain_days > 0)
    # Below this mean the line would call for a shape above 1; there the law is exponential.
    steep = mean_amount > GAMMA_OFFSET / (1 - GAMMA_SCALE)
    scale = np.where(steep, GAMMA_SCALE * mean_amount + GAMMA_OFFSET, mean_amount)
    shape = np.divide(mean_amount, scale, out=np.ones(12), where=scale > 0)
    amounts = random.standard_gamma(shape[MONTH_OF_DAY], (years, 365)) * wet
    drawn = by_month(amounts).mean(axis=0) * DAYS_IN_MONTH
    factor = np.divide(rain, drawn, out=np.zeros(12), where=drawn > 0)
    return amounts * factor[MONTH_OF_DAY]


def _wet_days(wet_share: NDArray[np.float64], chance: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Whether each day is wet, (year, 365), from the months' share of wet days and chances."""
    after_dry = WET_AFTER_DRY * wet_share[MONTH_OF_DAY]
    after_wet = np.where(wet_share > 0, WET_DAY_BEFORE, 0.0)[MONTH_OF_DAY] + after_dry
    states = np.empty(chance.size, dtype=bool)
    state = False
    for day, value in enumerate(chance.ravel()):
        of_year = day % 365
        state = bool(value < (after_wet if state else after_dry)[of_year])
        states[day] = state
    return states.reshape(chance.shape)
