"""How much a quantity differs between places: what hardly differs cannot move the choice."""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray


class Spread(NamedTuple):
    """Low, median and high of many values, in their unit; NaN if none is known."""

    low: float
    median: float
    high: float

    @property
    def width(self) -> float:
        """How far high lies above low."""
        return self.high - self.low


def spread(values: NDArray[np.floating], low: float = 0.05, high: float = 0.95) -> Spread:
    """Quantiles low, one half and high of the known values in an array of any shape."""
    known = values[np.isfinite(values)]
    if not known.size:
        return Spread(np.nan, np.nan, np.nan)
    return Spread(*map(float, np.quantile(known, (low, 0.5, high))))
