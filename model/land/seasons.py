"""Dormant and growing season as days of the year, in either hemisphere.

Years have 365 days (29 February is left out); day 1 is 1 January.
"""

import numpy as np
from numpy.typing import ArrayLike, NDArray

DAYS = 365
FIRST_OF_OCTOBER, LAST_OF_MARCH = 274, 90
FIRST_OF_APRIL, LAST_OF_OCTOBER = 91, 304
FIRST_OF_APRIL_SOUTH, LAST_OF_SEPTEMBER, LAST_OF_APRIL = 91, 273, 120


def dormant_season(latitude: float) -> NDArray[np.int_]:
    """Days of the year in which trees rest and take chill, in the season's own order (day,).

    1 October to 31 March north of the equator, 1 April to 30 September south of it.
    `latitude` [degrees, north positive]. Source: common practice, no source.

    >>> dormant_season(52)[[0, -1]].tolist()
    [274, 90]
    """
    if latitude >= 0:
        return _days(FIRST_OF_OCTOBER, LAST_OF_MARCH)
    return _days(FIRST_OF_APRIL_SOUTH, LAST_OF_SEPTEMBER)


def growing_season(latitude: float) -> NDArray[np.int_]:
    """Days of the year in which trees grow and ripen, in the season's own order (day,).

    1 April to 31 October north of the equator, 1 October to 30 April south of it.
    `latitude` [degrees, north positive]. Source: common practice, no source.

    >>> growing_season(-35)[[0, -1]].tolist()
    [274, 120]
    """
    if latitude >= 0:
        return _days(FIRST_OF_APRIL, LAST_OF_OCTOBER)
    return _days(FIRST_OF_OCTOBER, LAST_OF_APRIL)


def by_season(values: ArrayLike, days: NDArray[np.int_]) -> NDArray:
    """Values of each season, its days in order.

    A season that crosses the new year takes its end from the year after, so that there is one
    season fewer than years. A single year (a typical year) is taken to follow itself.

    Parameters
    ----------
    values : array (year, 365, ...)
        One value or row of values a day.
    days : array (day,) of int
        Days of the year, as the functions above give them.

    Returns
    -------
    array (season, day, ...)

    Examples
    --------
    >>> year = np.tile(np.arange(1, 366), (3, 1)) + [[1000], [2000], [3000]]
    >>> by_season(year, dormant_season(52))[:, [0, -1]].tolist()
    [[1274, 2090], [2274, 3090]]

    """
    series = np.asarray(values)
    wraps = int(np.argmin(days)) if days[-1] < days[0] else 0
    if not wraps or len(series) == 1:
        return series[:, days - 1]
    return np.concatenate([series[:-1, days[:wraps] - 1], series[1:, days[wraps:] - 1]], axis=1)


def _days(first: int, last: int) -> NDArray[np.int_]:
    """Days of the year from the first to the last, round the new year if need be (day,)."""
    return (np.arange(first, last + 1 + (DAYS if last < first else 0)) - 1) % DAYS + 1
