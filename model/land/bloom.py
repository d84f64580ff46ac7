"""When a tree flowers: chill ends its rest, then warmth opens the buds.

A season's days run from the first of the dormant months through the following summer; a moment in
it is counted in days from its start, so that it may cross the new year.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from model.land.chill import chill_portions
from model.land.heat import degree_hours
from model.land.seasons import DAYS, FIRST_OF_APRIL_SOUTH, FIRST_OF_OCTOBER

SEASON_DAYS = 300  # from the start of dormancy to the end of July (north)


@dataclass(frozen=True)
class Progress:
    """Chill and heat gathered up to each hour of many seasons, arrays (hour, ...).

    Attributes
    ----------
    chill : array [portions]
    heat : array [K h]

    """

    chill: NDArray[np.float64]
    heat: NDArray[np.float64]


def flowering_season(latitude: float) -> NDArray[np.int_]:
    """Days of the year from the start of dormancy until all fruit has set, in order (day,).

    From 1 October north of the equator, from 1 April south of it; 300 days.

    >>> flowering_season(52)[[0, 92, -1]].tolist()
    [274, 1, 208]
    """
    first = FIRST_OF_OCTOBER if latitude >= 0 else FIRST_OF_APRIL_SOUTH
    return (first - 1 + np.arange(SEASON_DAYS)) % DAYS + 1


def progress(hourly: ArrayLike) -> Progress:
    """Chill and heat up to each hour, from temperatures (hour, ...) [degrees C].

    Hours run from the start of dormancy; other axes (seasons, warmth of places) are kept. Needed
    once for all species.
    """
    temperature = np.asarray(hourly, dtype=float)
    chill = chill_portions(temperature, cumulative=True)
    return Progress(chill, np.cumsum(degree_hours(temperature), axis=0))


def full_bloom(gathered: Progress, chill_need: float, heat_need: float) -> NDArray[np.float64]:
    """Day of full bloom, counted from the season's start, array (...) [days].

    Heat counts from the hour in which the chill is complete. NaN in a season that does not bring
    enough of either.

    Parameters
    ----------
    gathered : Progress
        Arrays (hour, ...).
    chill_need : float [portions]
        Of the Dynamic Model, to end the rest.
    heat_need : float [K h]
        Growing degree hours from there to full bloom.

    References
    ----------
    Sequence of chill and heat: Anderson, Richardson & Kesner (1986), Acta Horticulturae
    184:71-78. Chill in portions: Fishman, Erez & Couvillon (1987).

    """
    rested = _first(gathered.chill >= chill_need)
    at_rest = _heat_at(gathered, rested)
    open_hour = _first(gathered.heat >= at_rest + heat_need)
    return np.where(rested < len(gathered.heat), _known(open_hour, len(gathered.heat)), np.nan) / 24


def heat_until(gathered: Progress, chill_need: float, day: ArrayLike) -> NDArray[np.float64]:
    """Heat that each season brings from the end of rest to a given day, array (...) [K h].

    `day` is counted from the season's start. NaN where rest ends later than that.
    """
    rested = _first(gathered.chill >= chill_need)
    hour = np.round(np.asarray(day, dtype=float) * 24).astype(int)
    heat = gathered.heat[np.clip(hour, 0, len(gathered.heat) - 1)] - _heat_at(gathered, rested)
    return np.where(rested <= hour, heat, np.nan)


def heat_need(gathered: Progress, chill_need: float, known_day: float) -> float:
    """Heat that makes the median season's bloom fall on a known day [K h].

    Calibrates a species where its bloom is known. ValueError when half of the seasons or more do
    not end its rest by that day: the chill it is said to need does not fit the place.

    Parameters
    ----------
    gathered : Progress
        Of the place where the day is known, arrays (hour, season).
    chill_need : float [portions]
        As in `full_bloom`.
    known_day : float [days]
        Counted from the season's start.

    """
    heat = heat_until(gathered, chill_need, known_day)
    if np.isnan(heat).mean() >= 0.5:
        raise ValueError(
            f"chill_need: found {chill_need} portions, expected so many as most winters bring "
            f"before day {known_day} of the season"
        )
    # Seasons still at rest on the day would need less than nothing: they count as the least.
    return float(np.median(np.where(np.isnan(heat), 0.0, heat)))


def _first(reached: NDArray[np.bool_]) -> NDArray[np.int_]:
    """Position of the first True over the first axis, its length where there is none (...)."""
    return np.where(reached.any(axis=0), reached.argmax(axis=0), len(reached))


def _known(hour: NDArray[np.int_], hours: int) -> NDArray[np.float64]:
    """Hour as a float, NaN where it was never reached."""
    return np.where(hour < hours, hour, np.nan)


def _heat_at(gathered: Progress, hour: NDArray[np.int_]) -> NDArray[np.float64]:
    """Heat gathered by an hour of each season (...)."""
    last = np.minimum(hour, len(gathered.heat) - 1)
    return np.take_along_axis(gathered.heat, last[None], axis=0)[0]
