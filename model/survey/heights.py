"""Height of the ground at any point, from what was measured."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import ArrayLike
from scipy.interpolate import LinearNDInterpolator
from scipy.spatial import QhullError, cKDTree

DECIMALS = 4


@dataclass(frozen=True, eq=False)
class SpotHeights:
    """Heights measured at scattered spots: x, y [m, local], z [m above sea level], each (spot,)."""

    x: np.ndarray
    y: np.ndarray
    z: np.ndarray

    def surface(self, x: ArrayLike, y: ArrayLike) -> np.ndarray:
        """Heights [m] at any points: straight between the spots (Delaunay), the nearest outside."""
        x, y = np.broadcast_arrays(np.asarray(x, float), np.asarray(y, float))
        heights = self.z[self._tree.query(np.stack([x, y], axis=-1))[1]]
        if self._triangles is None:
            return heights
        between = self._triangles(x, y)
        return np.where(np.isfinite(between), between, heights)

    @cached_property
    def _tree(self) -> cKDTree:
        return cKDTree(np.column_stack([self.x, self.y]))

    @cached_property
    def _triangles(self) -> LinearNDInterpolator | None:
        """The triangles between the spots, None when all stand on one line.

        Places are taken to 0.1 mm: thousands of them that lie on one circle to the last digit,
        as nothing measured does, would be joined for minutes.
        """
        try:
            return LinearNDInterpolator(np.column_stack([self.x, self.y]).round(DECIMALS), self.z)
        except (QhullError, ValueError):
            return None


@dataclass(frozen=True)
class Plane:
    """One slope for the whole site: percent (rise over run), and the bearing it faces downhill."""

    slope_percent: float
    aspect_deg: float
    altitude: float = 0.0

    def surface(self, x: ArrayLike, y: ArrayLike) -> np.ndarray:
        """Heights [m] at any points; the origin stands at the plane's altitude."""
        bearing = np.radians(self.aspect_deg)
        downhill = np.asarray(x, float) * np.sin(bearing) + np.asarray(y, float) * np.cos(bearing)
        return self.altitude - self.slope_percent / 100 * downhill


@dataclass(frozen=True, eq=False)
class RasterHeights:
    """Heights on a regular grid: x (column,), y (row,) ascending [m, local], z (row, column) [m].

    x and y are cell centres; NaN in z where the height is not known.
    """

    x: np.ndarray
    y: np.ndarray
    z: np.ndarray

    def surface(self, x: ArrayLike, y: ArrayLike) -> np.ndarray:
        """Heights [m] at any points: bilinear between cell centres, held flat beyond the edges.

        Beside cells that are not known the known ones of the four count; where none of the four
        is known, the nearest known cell.
        """
        x, y = np.broadcast_arrays(np.asarray(x, float), np.asarray(y, float))
        column, along = _cell_and_share(self.x, x)
        row, up = _cell_and_share(self.y, y)
        last_row, last_column = len(self.y) - 1, len(self.x) - 1
        total, known = np.zeros(x.shape), np.zeros(x.shape)
        for north in (0, 1):
            for east in (0, 1):
                share = (up if north else 1 - up) * (along if east else 1 - along)
                corner = self.z[
                    np.minimum(row + north, last_row), np.minimum(column + east, last_column)
                ]
                here = np.isfinite(corner)
                total += np.where(here, share * corner, 0.0)
                known += np.where(here, share, 0.0)
        heights = total / np.where(known > 0, known, 1.0)
        holes = known <= 0
        if holes.any():
            heights[holes] = self._nearest_known(x[holes], y[holes])
        return heights

    def _nearest_known(self, x: np.ndarray, y: np.ndarray) -> np.ndarray:
        rows, columns = np.nonzero(np.isfinite(self.z))
        if not len(rows):
            return np.full(x.shape, np.nan)
        tree = cKDTree(np.column_stack([self.x[columns], self.y[rows]]))
        nearest = tree.query(np.column_stack([x, y]))[1]
        return self.z[rows[nearest], columns[nearest]]


Heights = SpotHeights | Plane | RasterHeights


def same_heights(one: Heights | None, other: Heights | None) -> bool:
    """Whether two records of heights say the same, to 0.1 mm."""
    if isinstance(one, Plane) and isinstance(other, Plane):
        return bool(np.allclose(_plane_figures(one), _plane_figures(other), rtol=0, atol=1e-9))
    if isinstance(one, SpotHeights | RasterHeights) and type(one) is type(other):
        pairs = [(getattr(one, name), getattr(other, name)) for name in ("x", "y", "z")]
        return all(
            a.shape == b.shape and np.allclose(a, b, rtol=0, atol=1e-4, equal_nan=True)
            for a, b in pairs
        )
    return one is None and other is None


def _plane_figures(plane: Plane) -> list[float]:
    return [plane.slope_percent, plane.aspect_deg, plane.altitude]


def _cell_and_share(centres: np.ndarray, points: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """The cell before each point and how far on towards the next, 0 to 1."""
    if len(centres) == 1:
        return np.zeros(points.shape, int), np.zeros(points.shape)
    position = (points - centres[0]) / (centres[-1] - centres[0]) * (len(centres) - 1)
    position = np.clip(position, 0, len(centres) - 1)
    cell = np.minimum(position.astype(int), len(centres) - 2)
    return cell, position - cell
