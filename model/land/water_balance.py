"""Daily water balance of a root zone: when a tree thirsts, and how much must be carried to it.

Equations are numbered as in Allen, Pereira, Raes & Smith (1998), Crop evapotranspiration, FAO
Irrigation and Drainage Paper 56. Water in the soil is counted as depletion: the depth of rain
that would fill the root zone to field capacity. A litre is a millimetre on a square metre.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

# Depth of roots [m] of a tree just planted and what they gain in a year: common practice, no
# source. The full depth of apple, pear, cherry and stone fruit is 1 to 2 m in FAO-56, table 22.
PLANTING_DEPTH, YEARLY_DEPTH = 0.3, 0.15
# Share of the available water that trees take freely at 5 mm a day, FAO-56, table 22.
FREELY_TAKEN = 0.5


@dataclass(frozen=True)
class RootZone:
    """Daily water of a root zone, each array (..., year, day) [mm].

    Attributes
    ----------
    depletion : array
        Water lacking at the end of the day.
    used : array
        Evaporated and transpired.
    drained : array
        Rain that the soil could not hold.
    watered : array
        Brought by people.

    """

    depletion: NDArray[np.float64]
    used: NDArray[np.float64]
    drained: NDArray[np.float64]
    watered: NDArray[np.float64]


@dataclass(frozen=True)
class Stages:
    """Crop coefficient over the season.

    Attributes
    ----------
    lengths : tuple of four [days]
        Initial, development, middle and late stage; FAO-56, table 11.
    initial, middle, end : float [1]
        Coefficients; FAO-56, table 12.

    """

    lengths: tuple[float, float, float, float]
    initial: float
    middle: float
    end: float


# FAO-56, table 11, high latitudes, from early spring; table 12, with killing frost: apple, cherry
# and pear, then stone fruit, over bare or mulched soil and over grass.
HIGH_LATITUDE = (20.0, 70.0, 90.0, 30.0)
POME_BARE = Stages(HIGH_LATITUDE, 0.45, 0.95, 0.70)
POME_GRASS = Stages(HIGH_LATITUDE, 0.50, 1.20, 0.95)
STONE_BARE = Stages(HIGH_LATITUDE, 0.45, 0.90, 0.65)
STONE_GRASS = Stages(HIGH_LATITUDE, 0.50, 1.15, 0.90)


def crop_coefficient(stages: Stages, start: int, days: int = 365) -> NDArray[np.float64]:
    """Crop coefficient of each day, (day,) [1].

    Level in the initial and middle stage and straight between; before the start and after the
    end it is that of the initial stage. `start` is the season's first day as a position (0 is
    the first of the `days`). Source: FAO-56, figure 34 and equation 66.

    >>> crop_coefficient(POME_BARE, start=60)[60 + 55].round(3).item()
    0.7
    """
    knots = start + np.cumsum((0.0, *stages.lengths))
    values = (stages.initial, stages.initial, stages.middle, stages.middle, stages.end)
    coefficient = np.interp(np.arange(days), knots, values)
    return np.where(np.arange(days) > knots[-1], stages.initial, coefficient)


def rooting_depth(years: ArrayLike, full_depth: ArrayLike) -> NDArray[np.float64]:
    """Depth of a tree's roots some years after planting, broadcast shape [m].

    They start with the hole's and gain 15 cm a year, to the full depth (that of the soil, if it
    is less than the species'). Source: common practice, no source.

    >>> rooting_depth([0, 2, 20], full_depth=1.2).round(2).tolist()
    [0.3, 0.6, 1.2]
    """
    depth = PLANTING_DEPTH + YEARLY_DEPTH * np.asarray(years, dtype=float)
    return np.minimum(depth, np.asarray(full_depth, dtype=float))


def freely_taken(use: ArrayLike, share: float = FREELY_TAKEN) -> NDArray[np.float64]:
    """Share of the available water a tree takes before it suffers, same shape as `use` [1].

    `use` is what it would evaporate on the day [mm/day]; `share` holds for 5 mm.
    Source: FAO-56, table 22, footnote.

    >>> freely_taken([3, 5, 8]).round(2).tolist()
    [0.58, 0.5, 0.38]
    """
    return np.clip(share + 0.04 * (5 - np.asarray(use, dtype=float)), 0.1, 0.8)


def stress(depletion: ArrayLike, available: ArrayLike, share: ArrayLike) -> NDArray[np.float64]:
    """Share of its full use that a thirsty tree still manages, broadcast shape [1], 1 to 0.

    `depletion` and `available` water in the root zone [mm], `share` freely taken [1].
    Source: FAO-56, equations 83 and 84.

    >>> stress([65, 100, 130], available=130, share=0.5).round(3).tolist()
    [1.0, 0.462, 0.0]
    """
    total = np.asarray(available, dtype=float)
    left = total - np.asarray(depletion, dtype=float)
    return np.clip(left / np.maximum((1 - np.asarray(share)) * total, 1e-9), 0, 1)


def root_zone(
    rain: ArrayLike,
    reference: ArrayLike,
    coefficient: ArrayLike,
    available: ArrayLike,
    watering: ArrayLike = False,
    share: float = FREELY_TAKEN,
) -> RootZone:
    """Daily balance of the root zone; each year starts with a full soil.

    On watering days just so much is brought that the tree does not suffer: the least that it
    needs, in whatever portions. Run-off and rain caught by leaves are left out.

    Parameters
    ----------
    rain, reference : array (year, day) [mm/day]
        Rain and reference evapotranspiration; let the days begin in the wet season.
    coefficient : array (day,) [1]
        Crop coefficient.
    available : array (...) [mm]
        Water that the root zone holds between field capacity and wilting, of any number of soils
        and depths: available water [mm/m] times depth [m].
    watering : bool or array (day,) of bool
        Days on which the tree is watered.
    share : float [1]
        Of the available water, taken freely at 5 mm a day.

    Returns
    -------
    RootZone
        With arrays (..., year, day).

    References
    ----------
    FAO-56, equations 82 to 88.

    """
    falling, drying = (np.asarray(part, dtype=float) for part in (rain, reference))
    total = np.asarray(available, dtype=float)[..., None]
    demand = drying * np.asarray(coefficient, dtype=float)
    free = freely_taken(demand, share)
    cared_for = np.broadcast_to(watering, demand.shape[-1:])
    state = np.zeros(np.broadcast_shapes(total.shape, demand.shape[:-1]))
    days = []
    for day in range(demand.shape[-1]):
        still = stress(state, total, free[..., day])
        # In a shallow soil the day would use more than there is.
        there_is = total - state + falling[..., day]
        used = np.minimum(still * demand[..., day], there_is)
        balance = state + used - falling[..., day]
        drained = np.maximum(-balance, 0)
        lacking = np.maximum(balance, 0)
        bearable = free[..., day] * total if cared_for[day] else total
        watered = np.maximum(lacking - bearable, 0)
        state = lacking - watered
        days.append((state, used, drained, watered))
    return RootZone(*(np.stack(part, axis=-1) for part in zip(*days, strict=True)))


def median_and_dry(need: ArrayLike, dry: float = 0.9) -> NDArray[np.float64]:
    """Need of a median and of a dry year, (..., year) to (2, ...), same unit.

    The dry year is one that nine in ten years stay below.
    """
    return np.quantile(np.asarray(need, dtype=float), [0.5, dry], axis=-1)


def litres(watered: ArrayLike, area: ArrayLike) -> NDArray[np.float64]:
    """Water brought to a tree in each year, (..., year, day) [mm] to (..., year) [l].

    `area` (...) [m2] is what is wetted: the mulched circle over the roots.
    """
    depth = np.asarray(watered, dtype=float).sum(axis=-1)
    return depth * np.asarray(area, dtype=float)[..., None]
