"""Soil acidity: how far a soil is from what a tree bears, and what would bring it there.

Lime and sulphur act within months to years and by a soil's own measure: test the soil again
before a second dose.
"""

import numpy as np
from numpy.typing import ArrayLike, NDArray

# How strongly a soil holds its acidity, by texture class.
LIGHT = ("sand", "loamy sand")
HEAVY = ("sandy clay loam", "clay loam", "silty clay loam", "sandy clay", "silty clay", "clay")

# Ground limestone [t/ha] that raises 20 cm of light, middling and heavy soil by one unit: the
# factor for arable land of the AHDB Nutrient Management Guide (RB209). The 6 was checked against
# a published table; 7 and 8 are from memory.
LIME_FACTORS = (6.0, 7.0, 8.0)
LIME_DEPTH = 0.2  # [m]
# Sulphur [g/m2] that lowers 15 cm by about a unit, from 7.0-7.5 to 6.0-6.5: 135 on sand and 270
# on clay, Royal Horticultural Society, Acidifying soil; the middle is ours. Other advice has as
# little as 50 to 100: start low.
SULPHUR_FACTORS = (135.0, 200.0, 270.0)
SULPHUR_DEPTH = 0.15  # [m]


def acidity_distance(ph: ArrayLike, low: ArrayLike, high: ArrayLike) -> NDArray[np.float64]:
    """Distance of a soil from the range a tree bears, broadcast shape [pH].

    Below 0 it is that much too acid, above 0 that much too alkaline, within the range 0.

    >>> acidity_distance([5.0, 6.5, 8.0], low=6.0, high=7.0).tolist()
    [-1.0, 0.0, 1.0]
    """
    found = np.asarray(ph, dtype=float)
    too_acid = np.minimum(found - np.asarray(low, dtype=float), 0)
    return too_acid + np.maximum(found - np.asarray(high, dtype=float), 0)


def lime_need(
    distance: ArrayLike, texture: ArrayLike, depth: ArrayLike = LIME_DEPTH
) -> NDArray[np.float64]:
    """Ground limestone that brings an acid soil to its range, broadcast shape [kg/m2].

    `distance` [pH] as above (only what is too acid counts), `texture` class names, `depth` [m] of
    the soil that it is mixed with. Source: AHDB Nutrient Management Guide (RB209), lime factors.

    >>> lime_need(-1.0, "loam").round(2).item()
    0.7
    """
    tonnes = np.maximum(-np.asarray(distance, dtype=float), 0) * _by_texture(texture, LIME_FACTORS)
    return tonnes * 0.1 * np.asarray(depth, dtype=float) / LIME_DEPTH


def sulphur_need(
    distance: ArrayLike, texture: ArrayLike, depth: ArrayLike = SULPHUR_DEPTH
) -> NDArray[np.float64]:
    """Sulphur that brings an alkaline soil to its range, broadcast shape [kg/m2].

    `distance`, `texture` and `depth` as for lime (only what is too alkaline counts). Where free
    lime or chalk is present (vinegar fizzes) no dose will hold: choose another fruit.
    Source: Royal Horticultural Society, Acidifying soil.

    >>> sulphur_need(0.5, "clay").round(3).item()
    0.135
    """
    grams = np.maximum(np.asarray(distance, dtype=float), 0) * _by_texture(texture, SULPHUR_FACTORS)
    return grams / 1000 * np.asarray(depth, dtype=float) / SULPHUR_DEPTH


def for_hole(need: ArrayLike, width: ArrayLike) -> NDArray[np.float64]:
    """Amount for a round planting hole, broadcast shape [kg].

    `need` [kg/m2] for the hole's own depth, `width` [m] across.

    >>> for_hole(0.7, width=1.0).round(2).item()
    0.55
    """
    return np.asarray(need, dtype=float) * np.pi * (np.asarray(width, dtype=float) / 2) ** 2


def _by_texture(texture: ArrayLike, factors: tuple[float, float, float]) -> NDArray[np.float64]:
    """The factor of each soil: light, middling or heavy."""
    names = np.asarray(texture)
    light, middling, heavy = factors
    return np.select([np.isin(names, LIGHT), np.isin(names, HEAVY)], [light, heavy], middling)
