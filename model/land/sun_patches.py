"""A year's sun gathered into patches of sky by month, once for a latitude.

What a place sees of each patch, times the hours of sun in it, is the place's sun: the year is
never walked through hour by hour.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
from numpy.typing import ArrayLike, NDArray

from model.land.sky import Circle, Sky, sky_of
from model.land.sun_position import declination_and_hour_angle, sun_position

MINUTES = 4  # between samples: the sun turns one degree
SAMPLE_YEAR = 2025  # any common year does: from year to year the sun shifts by up to 0.2 degrees
COLUMNS = 180  # of 2 degrees of bearing
ROW_HEIGHT = 2.5  # [degrees]
ALL_MONTHS = tuple(range(12))


@dataclass(frozen=True)
class SunPath:
    """Where the sun stands through a year while it is up, every few minutes.

    Attributes
    ----------
    latitude : float [degrees]
        North positive.
    day : array (sample,)
        Day of the year, 1 to 365.
    month : array (sample,)
        0 is January.
    solar_hour : array (sample,) [h]
        12 when the sun crosses the meridian.
    elevation, bearing : arrays (sample,) [degrees]
        As the eye sees it.
    step : float [h]
        What a sample stands for.

    """

    latitude: float
    day: NDArray[np.intp]
    month: NDArray[np.intp]
    solar_hour: NDArray[np.float64]
    elevation: NDArray[np.float64]
    bearing: NDArray[np.float64]
    step: float


@dataclass(frozen=True)
class SunPatches:
    """The patches of sky that the sun passes in some months, and when it is in each.

    Attributes
    ----------
    sky : Sky
        The patches; a few that fill a column's gap see no sun in these months.
    path : SunPath
        The samples, only those of the months.
    patch : array (sample,)
        Patch of each sample.

    """

    sky: Sky
    path: SunPath
    patch: NDArray[np.intp]

    @property
    def size(self) -> int:
        """Number of patches."""
        return len(self.sky.row)

    @property
    def months(self) -> NDArray[np.intp]:
        """Months with sun, ascending; 0 is January."""
        return np.unique(self.path.month)

    def sums(self, worth: ArrayLike = 1.0) -> NDArray[np.float64]:
        """Time in each patch by month, each sample times its worth (month, patch) [h times worth].

        `worth` (sample,) picks and weighs samples: the strength of the beam, the morning only.
        """
        weight = np.broadcast_to(np.asarray(worth, dtype=float), self.patch.shape) * self.path.step
        cell = self.path.month * self.size + self.patch
        return np.bincount(cell, weight, 12 * self.size).reshape(12, self.size).astype(float)


def sun_hours(patches: SunPatches) -> NDArray[np.float64]:
    """Hours of sun in each patch by month (month, patch) [h a month]."""
    return patches.sums()


def morning_hours(patches: SunPatches, before: float = 10.0) -> NDArray[np.float64]:
    """Hours of sun before an hour of solar time [h], by month and patch (month, patch)."""
    return patches.sums(patches.path.solar_hour < before)


def evening_hours(patches: SunPatches, after: float = 15.0) -> NDArray[np.float64]:
    """Hours of sun after an hour of solar time [h], by month and patch (month, patch)."""
    return patches.sums(patches.path.solar_hour >= after)


@lru_cache(maxsize=8)
def sun_path(latitude: float) -> SunPath:
    """The year's sun at a latitude [degrees, north positive]."""
    start, end = np.datetime64(f"{SAMPLE_YEAR}-01-01"), np.datetime64(f"{SAMPLE_YEAR + 1}-01-01")
    time = np.arange(start, end, np.timedelta64(MINUTES, "m"))
    elevation, bearing = sun_position(time, latitude, 0)
    up = elevation > 0
    time = time[up]
    _, hour_angle = declination_and_hour_angle(time, 0)
    return SunPath(
        latitude=latitude,
        day=(time.astype("datetime64[D]") - start).astype(int) + 1,
        month=time.astype("datetime64[M]").astype(int) % 12,
        solar_hour=12 + hour_angle / 15,
        elevation=elevation[up],
        bearing=bearing[up],
        step=MINUTES / 60,
    )


def sun_patches(latitude: float, months: Sequence[int] = ALL_MONTHS) -> SunPatches:
    """The year's sun at a latitude in patches; only some months' (0 is January) when given.

    `latitude` [degrees, north positive].

    >>> sun_hours(sun_patches(52.0)).sum().round(-1).item()  # half the year, and the air's lift
    4460.0
    """
    year = sun_path(float(latitude))
    chosen = np.isin(year.month, np.asarray(months, dtype=int))
    path = replace(
        year,
        day=year.day[chosen],
        month=year.month[chosen],
        solar_hour=year.solar_hour[chosen],
        elevation=year.elevation[chosen],
        bearing=year.bearing[chosen],
    )
    sky = sky_of(Circle(180 / COLUMNS, COLUMNS), ROW_HEIGHT, path.elevation, path.bearing)
    return SunPatches(sky, path, sky.patch_at(path.elevation, path.bearing))


def summer_months(latitude: float) -> tuple[int, ...]:
    """Months of the growing season: April to October, turned by half a year in the south.

    `latitude` [degrees, north positive]; 0 is January. Source: common practice, no source.

    >>> summer_months(-36)
    (9, 10, 11, 0, 1, 2, 3)
    """
    return _turned((3, 4, 5, 6, 7, 8, 9), latitude)


def winter_months(latitude: float) -> tuple[int, ...]:
    """Months of the low sun: November to February, turned by half a year in the south.

    `latitude` [degrees, north positive]; 0 is January. Source: common practice, no source.
    """
    return _turned((10, 11, 0, 1), latitude)


def _turned(months: tuple[int, ...], latitude: float) -> tuple[int, ...]:
    """Months of the north as those of the same season at a latitude."""
    return months if latitude >= 0 else tuple((month + 6) % 12 for month in months)
