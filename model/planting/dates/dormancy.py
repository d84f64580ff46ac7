"""When the trees of a site stand bare, and on which of those days its ground can be dug."""

from dataclasses import dataclass

import numpy as np

from model.ground.weather_years import DAYS, WeatherYears

SMOOTH = 31  # [days] over which the year's course is smoothed
# Leaves are down while the year's course is nearer to its coldest than to its mean: two months
# either side of the coldest day (model choice: common practice, no source). It gives mid November
# to the end of March in a mild British climate.
COLD_SHARE = 0.5
SPELL = 3  # [days] of frost or rain that the ground remembers (common practice, no source)
FREEZES = 0.0  # [C] mean of a spell, from which the topsoil freezes (common practice, no source)
SOAKED = 15.0  # [mm] in a spell, from which soil smears under the spade (common practice)


@dataclass(frozen=True)
class Dormancy:
    """The bare season by days of the year, and how much of it is fit for planting.

    `first`, `last` are days of the year (1 to 365); `fit` (day,) [1] is the share of years in which
    the ground is neither frozen nor soaked on each day of the year, 1 January first.
    """

    first: int
    last: int
    fit: np.ndarray

    def fit_by_month(self) -> dict[int, float]:
        """Share of fit days in each month of the bare season, in its order, by month number."""
        span = (np.arange((self.last - self.first) % DAYS + 1) + self.first - 1) % DAYS
        month = (np.datetime64("2001-01-01") + span).astype("datetime64[M]").astype(int) % 12 + 1
        return {int(m): float(self.fit[span[month == m]].mean()) for m in dict.fromkeys(month)}


def dormancy(years: WeatherYears) -> Dormancy | None:
    """The bare season of a site's weather; None where winter hardly differs from summer."""
    known = np.isfinite(years.tmin).all(axis=1)
    mean = (years.tmin[known] + years.tmax[known]) / 2
    course = smoothed(mean.mean(axis=0))
    limit = course.min() + COLD_SHARE * (course.mean() - course.min())
    coldest = int(course.argmin())
    # Counted from half a year before the coldest day, so that the cold lies in one piece.
    start = coldest - DAYS // 2
    cold = np.flatnonzero(np.roll(course, -start) <= limit)
    if course.mean() - course.min() < 1.0:
        return None
    first, last = ((start + int(cold[end])) % DAYS + 1 for end in (0, -1))
    return Dormancy(first, last, _fit(mean, years.rain[known]))


def smoothed(course: np.ndarray) -> np.ndarray:
    """A year's course of daily values (day,), each the mean of a month round it."""
    half = SMOOTH // 2
    around = np.concatenate([course[-half:], course, course[:half]])
    return np.convolve(around, np.full(SMOOTH, 1 / SMOOTH), "valid")


def _fit(mean: np.ndarray, rain: np.ndarray) -> np.ndarray:
    """Share of years in which each day follows no spell of frost and none of rain (day,) [1].

    `mean` [C] and `rain` [mm] are (year, day); rain that is not known does not hinder.
    """
    frozen = _spell(mean) / SPELL < FREEZES
    soaked = _spell(np.nan_to_num(rain)) >= SOAKED
    return (~frozen & ~soaked).mean(axis=0)


def _spell(values: np.ndarray) -> np.ndarray:
    """Sum of each day and those before it in a spell (year, day)."""
    run = values.ravel()
    total = sum(np.roll(run, lag) for lag in range(SPELL))
    return np.reshape(total, values.shape)
