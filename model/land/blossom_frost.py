"""Chance of a frost that kills blossom: night by night against the stage it stands in."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray


@dataclass(frozen=True)
class Stages:
    """What each stage of bud, blossom and fruitlet bears.

    Attributes
    ----------
    start : array (stage,) [days]
        From full bloom to the stage's first day, ascending; negative before it.
    kills : array (stage,) [degrees C]
        Temperature that kills the stated share within half an hour.
    end : float [days]
        From full bloom to the last stage's end.

    """

    start: ArrayLike
    kills: ArrayLike
    end: float


def killing_temperature(stages: Stages, from_bloom: ArrayLike) -> NDArray[np.float64]:
    """Temperature that kills on a day, same shape as `from_bloom` [degrees C].

    `from_bloom` [days] counts from full bloom. Between the starts of two stages the limit moves in
    a straight line, as the buds do; before the first stage and after the last it is -inf.
    """
    day = np.asarray(from_bloom, dtype=float)
    start, kills = (np.asarray(part, dtype=float) for part in (stages.start, stages.kills))
    limit = np.interp(day, start, kills)
    return np.where((day >= start[0]) & (day <= stages.end), limit, -np.inf)


def damage_chance(minimum: ArrayLike, bloom: ArrayLike, stages: Stages) -> NDArray[np.float64]:
    """Chance a year of a night that kills the stage the tree stands in, array (...) [1].

    Parameters
    ----------
    minimum : array (season, day, ...) [degrees C]
        Lowest temperature of each night at the place; days count from the season's start.
    bloom : array (season, ...) [days]
        Full bloom, from the season's start; seasons in which it is NaN are left out.
    stages : Stages
        And the temperatures that kill, for the 10 % or the 90 %.

    Returns
    -------
    array (...)
        Share of the seasons with such a night; NaN where no season flowers.

    """
    margin = damage_margin(minimum, bloom, stages)
    flowering = ~np.isnan(margin)
    struck = (np.where(flowering, margin, np.inf) <= 0).sum(axis=0)
    seasons = flowering.sum(axis=0)
    return np.divide(struck, seasons, out=np.full(struck.shape, np.nan), where=seasons > 0)


def damage_margin(minimum: ArrayLike, bloom: ArrayLike, stages: Stages) -> NDArray[np.float64]:
    """How far the worst night of each season stayed above the killing limit, (season, ...) [K].

    Below 0 the season was struck. Arguments as in `damage_chance`; a season without bloom is NaN.
    """
    nights = np.asarray(minimum, dtype=float)
    flowering = np.asarray(bloom, dtype=float)
    day = np.arange(nights.shape[1]).reshape(1, -1, *(1,) * (nights.ndim - 2))
    limit = killing_temperature(stages, day - flowering[:, None])
    worst = np.where(np.isnan(nights), np.inf, nights - limit).min(axis=1)
    return np.where(np.isnan(flowering), np.nan, worst)
