"""How big a tree grows: full size by soil, and size by age."""

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from model.trees.trait_arrays import Traits

LOW, TYPICAL, HIGH = 0, 1, 2  # the first axis of every size
Floats = NDArray[np.float64]


class Size(NamedTuple):
    """Full-grown sizes, each (3, option, n) low, typical, high [m]."""

    height: Floats
    spread: Floats


def full_size(traits: Traits, fertility: ArrayLike) -> Size:
    """Full-grown size: the rootstock's, with the cultivar's vigour, moved by the soil.

    `fertility` (n,) is -1 on poor, 0 on ordinary, 1 on rich soil, and between them in proportion;
    NaN counts as ordinary.

    Source: rootstock x cultivar x soil is common practice, no source; the three figures have
    their own sources in the catalogue.
    """
    soil = np.nan_to_num(np.atleast_1d(np.asarray(fertility, dtype=float)), nan=0.0)
    poor, rich = np.clip(-soil, 0, 1), np.clip(soil, 0, 1)
    times = 1 + np.outer(traits.poor_soil - 1, poor) + np.outer(traits.rich_soil - 1, rich)
    return Size(traits.height[:, :, None] * times, traits.spread[:, :, None] * times)


def size_at_age(
    full: ArrayLike, age: ArrayLike, rate: ArrayLike, power: ArrayLike, planted: ArrayLike = 0.0
) -> Floats:
    """Height or spread at an age, broadcast shape [m].

    `full` [m] full-grown size, `age` [yr] since planting, `rate` [1/yr], `power` [1], `planted`
    [m] size on planting, which the tree has until the curve overtakes it.

    Source: the Chapman-Richards curve, Richards (1959), A flexible growth function for empirical
    use, Journal of Experimental Botany 10; that fruit trees follow it is a model choice.

    >>> size_at_age(4.0, [0, 5, 50], rate=0.3, power=1.3, planted=1.5).round(2).tolist()
    [1.5, 2.88, 4.0]
    """
    grown = np.maximum(np.asarray(age, dtype=float), 0.0)
    share = (1 - np.exp(-np.asarray(rate, dtype=float) * grown)) ** np.asarray(power, dtype=float)
    whole = np.asarray(full, dtype=float)
    return np.maximum(whole * share, np.minimum(planted, whole))
