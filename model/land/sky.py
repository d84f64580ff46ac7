"""The sky cut into patches: columns of equal width of bearing, rows of equal height."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import ArrayLike, NDArray


@dataclass(frozen=True)
class Circle:
    """Evenly spaced bearings all round: the middles of the sky's columns.

    Attributes
    ----------
    first : float [degrees clockwise from north]
        Of the first column.
    count : int
        Of columns. A circle of one is a single bearing.

    """

    first: float
    count: int

    @property
    def width(self) -> float:
        """Angle from one column to the next [degrees]."""
        return 360 / self.count

    @property
    def bearings(self) -> NDArray[np.float64]:
        """Bearing of every column (column,) [degrees]."""
        return np.asarray(self.first + np.arange(self.count) * self.width, dtype=float)

    def within(
        self, middle: NDArray[np.float64], half_width: NDArray[np.float64]
    ) -> tuple[NDArray[np.intp], NDArray[np.intp], NDArray[np.float64]]:
        """Columns whose bearing lies in each thing's span.

        `middle` and `half_width` (thing,) [degrees]. Gives (pair,) each: which thing, which
        column, and how far [degrees] the column lies to the right of the thing's middle.
        """
        low = np.ceil((middle - half_width - self.first) / self.width)
        high = np.floor((middle + half_width - self.first) / self.width)
        count = np.clip(high - low + 1, 0, self.count).astype(np.intp)
        thing, step = runs(count)
        unturned = low[thing] + step
        offset = self.first + unturned * self.width - middle[thing]
        return thing, unturned.astype(np.intp) % self.count, offset


@dataclass(frozen=True)
class Sky:
    """Patches of sky in order of column, then of row; the rows of a column are unbroken.

    Attributes
    ----------
    circle : Circle
        The columns.
    row_height : float [degrees]
        Row 0 stands on the level horizon.
    first_row, end_row : arrays (column,) of int
        Lowest row of a column that is a patch, and one above its highest (equal: none).

    """

    circle: Circle
    row_height: float
    first_row: NDArray[np.intp]
    end_row: NDArray[np.intp]

    @cached_property
    def start(self) -> NDArray[np.intp]:
        """Patch at row 0 of every column, were it one (column,)."""
        count = self.end_row - self.first_row
        return np.cumsum(count) - count - self.first_row

    @cached_property
    def column(self) -> NDArray[np.intp]:
        """Column of every patch (patch,)."""
        return runs(self.end_row - self.first_row)[0]

    @cached_property
    def row(self) -> NDArray[np.intp]:
        """Row of every patch (patch,)."""
        column, step = runs(self.end_row - self.first_row)
        return step + self.first_row[column]

    @property
    def used(self) -> NDArray[np.bool_]:
        """Whether a column has any patch (column,)."""
        return self.end_row > self.first_row

    def patch_at(self, elevation: ArrayLike, bearing: ArrayLike) -> NDArray[np.intp]:
        """Patch of a direction [degrees] that lies in one, broadcast shape."""
        column, row = _column_and_row(self.circle, self.row_height, elevation, bearing)
        return self.start[column] + row


def sky_of(circle: Circle, row_height: float, elevation: ArrayLike, bearing: ArrayLike) -> Sky:
    """Smallest sky that holds all the given directions (direction,) [degrees]."""
    column, row = _column_and_row(circle, row_height, elevation, bearing)
    first, end = np.full(circle.count, np.iinfo(np.intp).max), np.zeros(circle.count, np.intp)
    np.minimum.at(first, column, row)
    np.maximum.at(end, column, row + 1)
    return Sky(circle, row_height, np.minimum(first, end), end)


def whole_sky(columns: int = 72, rows: int = 18) -> tuple[Sky, NDArray[np.float64]]:
    """Patches over the whole sky, and the share each has in the light of an even sky on the level.

    The shares (patch,) sum to 1: solid angle times sine of elevation, over pi.
    """
    sky = Sky(
        Circle(180 / columns, columns), 90 / rows, np.zeros(columns, int), np.full(columns, rows)
    )
    below, above = np.radians(sky.row * sky.row_height), np.radians((sky.row + 1) * sky.row_height)
    return sky, (np.sin(above) ** 2 - np.sin(below) ** 2) / columns


def runs(count: NDArray[np.intp]) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """Each index as often as its count says, and the number within its run.

    >>> [part.tolist() for part in runs(np.array([2, 0, 3]))]
    [[0, 0, 2, 2, 2], [0, 1, 0, 1, 2]]
    """
    index = np.repeat(np.arange(len(count)), count)
    return index, np.arange(len(index)) - np.repeat(np.cumsum(count) - count, count)


def _column_and_row(
    circle: Circle, row_height: float, elevation: ArrayLike, bearing: ArrayLike
) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """Column and row of directions above the level [degrees], broadcast shape."""
    turned = (np.asarray(bearing, dtype=float) - circle.first) / circle.width
    column = np.floor(turned + 0.5).astype(np.intp) % circle.count
    return column, np.floor(np.asarray(elevation, dtype=float) / row_height).astype(np.intp)
