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
from model.land.temperature import sunrise_sunset

SEASON_DAYS = 300  # from the start of dormancy to the end of July (north)
# Daylight [h] under which buds do not move, however mild it is: model choice. It is that of the
# first days of February at 52 N; British practice counts warmth from 1 February (Cannell & Smith
# 1983, J. Appl. Ecol. 20:951-963, from memory). Without it mild winters bring blossom on by more
# than the 4 to 8 days a kelvin of the records.
LEAST_DAYLIGHT = 9.1
ROUNDING = 1e-6  # [K h] so that a need found for an hour is met in that hour


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


def first_stirring(latitude: float) -> int:
    """First day after midwinter with light enough for buds to move, from the season's start [days].

    0 where no day is darker than that, as up to 41 degrees from the equator.

    >>> first_stirring(52), first_stirring(-52), first_stirring(35)
    (124, 127, 0)
    """
    rise, sunset = sunrise_sunset(latitude, flowering_season(latitude))
    daylight = sunset - rise
    dark = np.flatnonzero(daylight < LEAST_DAYLIGHT)
    return int(dark[-1]) + 1 if len(dark) else 0


def progress(hourly: ArrayLike) -> Progress:
    """Chill and heat up to each hour, from temperatures (hour, ...) [degrees C].

    Hours run from the start of dormancy; other axes (seasons, warmth of places) are kept. Needed
    once for all species.
    """
    temperature = np.asarray(hourly, dtype=float)
    chill = chill_portions(temperature, cumulative=True)
    return Progress(chill, np.cumsum(degree_hours(temperature), axis=0))


def full_bloom(
    gathered: Progress, chill_need: float, heat_need: float, stirring: float = 0
) -> NDArray[np.float64]:
    """Day of full bloom, counted from the season's start, array (...) [days].

    Heat counts from the hour in which the chill is complete and the days are light enough. NaN in
    a season that does not bring enough of either.

    Parameters
    ----------
    gathered : Progress
        Arrays (hour, ...).
    chill_need : float [portions]
        Of the Dynamic Model, to end the rest.
    heat_need : float [K h]
        Growing degree hours from there to full bloom.
    stirring : float [days]
        From the season's start to the first day that is light enough.

    References
    ----------
    Sequence of chill and heat: Anderson, Richardson & Kesner (1986), Acta Horticulturae
    184:71-78. Chill in portions: Fishman, Erez & Couvillon (1987).

    """
    hours = len(gathered.heat)
    rested = _end_of_rest(gathered, chill_need, stirring)
    enough = _heat_at(gathered, rested) + heat_need - ROUNDING
    opening = _first(gathered.heat >= enough)
    return np.where((rested < hours) & (opening < hours), opening / 24, np.nan)


def heat_until(
    gathered: Progress, chill_need: float, day: ArrayLike, stirring: float = 0
) -> NDArray[np.float64]:
    """Heat that each season brings from the end of rest to a given day, array (...) [K h].

    `day` is counted from the season's start; the rest as in `full_bloom`. NaN where rest ends
    later than that.
    """
    rested = _end_of_rest(gathered, chill_need, stirring)
    hour = np.round(np.asarray(day, dtype=float) * 24).astype(int)
    heat = gathered.heat[np.clip(hour, 0, len(gathered.heat) - 1)] - _heat_at(gathered, rested)
    return np.where(rested <= hour, heat, np.nan)


def heat_need(
    gathered: Progress, chill_need: float, known_day: float, stirring: float = 0
) -> float:
    """Heat that makes the median season's bloom fall on a known day [K h].

    Calibrates a species where its bloom is known. ValueError when half of the seasons or more do
    not end its rest by that day: the chill it is said to need does not fit the place.

    Parameters
    ----------
    gathered : Progress
        Of the place where the day is known, arrays (hour, season).
    chill_need, stirring : float [portions], [days]
        As in `full_bloom`, at that place.
    known_day : float [days]
        Counted from the season's start.

    """
    heat = heat_until(gathered, chill_need, known_day, stirring)
    if np.isnan(heat).mean() >= 0.5:
        raise ValueError(
            f"chill_need: found {chill_need} portions, expected so many as most winters bring "
            f"before day {known_day} of the season"
        )
    # Seasons still at rest on the day would need less than nothing: they count as the least.
    return float(np.median(np.where(np.isnan(heat), 0.0, heat)))


def _end_of_rest(gathered: Progress, chill_need: float, stirring: float) -> NDArray[np.int_]:
    """Hour from which heat counts, the number of hours where chill never suffices (...)."""
    return np.maximum(_first(gathered.chill >= chill_need), round(stirring * 24))


def _first(reached: NDArray[np.bool_]) -> NDArray[np.int_]:
    """Position of the first True over the first axis, its length where there is none (...)."""
    return np.where(reached.any(axis=0), reached.argmax(axis=0), len(reached))


def _heat_at(gathered: Progress, hour: NDArray[np.int_]) -> NDArray[np.float64]:
    """Heat gathered by an hour of each season (...)."""
    last = np.minimum(hour, len(gathered.heat) - 1)
    return np.take_along_axis(gathered.heat, last[None], axis=0)[0]
