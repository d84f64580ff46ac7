"""When broadleaved trees are in leaf, and what a crown lets through month by month."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

DAYS = np.array([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])
# In leaf from 20 April to the end of October at latitude 52; common practice, no source.
FIRST_DAY, LAST_DAY = 110, 304


def leaf_share(latitude: float, first: int = FIRST_DAY, last: int = LAST_DAY) -> NDArray:
    """Share of each month in which trees are in leaf (month,), January first, 0 to 1.

    `latitude` [degrees, north positive]; `first` and `last` day of the year in leaf in the north,
    turned by six months south of the equator. Source: common practice, no source.

    >>> leaf_share(52.0).round(2).tolist()
    [0.0, 0.0, 0.0, 0.37, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0, 0.0, 0.0]
    """
    end = np.cumsum(DAYS)
    inside = np.minimum(end, last) - np.maximum(end - DAYS, first - 1)
    share = np.clip(inside / DAYS, 0, 1)
    return share if latitude >= 0 else np.roll(share, 6)


def monthly_transmission(in_leaf: ArrayLike, bare: ArrayLike, leaf: NDArray) -> NDArray:
    """Share of the beam that a crown lets through by month (..., month), 0 to 1.

    `in_leaf` and `bare` (...) are its transmissions in summer and winter (equal: evergreen),
    `leaf` (month,) the share of the month in leaf.
    """
    summer, winter = (np.asarray(value, dtype=float)[..., None] for value in (in_leaf, bare))
    return leaf * summer + (1 - leaf) * winter
