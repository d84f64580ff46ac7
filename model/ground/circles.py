"""A quantity over circles round every place, known at a few radii and read at any."""

from dataclasses import dataclass

import numpy as np

RADII = np.array([0.5, 1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.5, 8.0, 10.0])  # [m]


@dataclass(frozen=True)
class Circles:
    """`table` (radius, place): values in circles of `RADII` round every place."""

    table: np.ndarray

    def at(self, radius: np.ndarray) -> np.ndarray:
        """Value in the circle of each radius (option, place) [m], straight between the radii."""
        return self._read(radius, np.arange(self.table.shape[1]))

    def at_place(self, radius: float, place: int) -> float:
        """Value in one circle round one place."""
        return float(self._read(np.array(radius), np.array(place)))

    def _read(self, radius: np.ndarray, place: np.ndarray) -> np.ndarray:
        position = np.interp(radius, RADII, np.arange(RADII.size))
        low = np.minimum(position.astype(int), RADII.size - 2)
        part = position - low
        return self.table[low, place] * (1 - part) + self.table[low + 1, place] * part
