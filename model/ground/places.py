"""The places at which the land is judged: cells of a grid over the site, and pegged spots."""

from dataclasses import dataclass

import numpy as np
import shapely

from model.language import _, figure
from model.survey.site import Site


@dataclass(frozen=True)
class Places:
    """Grid cells in row order (row 0 the south edge), then the pegged spots.

    `x`, `y` (place,) are metres east and north of the site's origin; `inside` (place,) says which
    lie within the boundary; `left` and `bottom` are the grid's outer edges [m].
    """

    x: np.ndarray
    y: np.ndarray
    inside: np.ndarray
    shape: tuple[int, int]
    cell: float
    left: float
    bottom: float
    spots: tuple[str, ...]

    @property
    def cells(self) -> int:
        """How many of the places are cells of the grid."""
        return self.shape[0] * self.shape[1]

    @property
    def columns(self) -> np.ndarray:
        """East coordinate of each column's centre, (x,) [m]."""
        return self.left + (np.arange(self.shape[1]) + 0.5) * self.cell

    @property
    def rows(self) -> np.ndarray:
        """North coordinate of each row's centre, (y,) [m]."""
        return self.bottom + (np.arange(self.shape[0]) + 0.5) * self.cell

    def grid(self, values: np.ndarray) -> np.ndarray:
        """The grid's part of values by place, as a picture: (..., place) to (..., y, x)."""
        return values[..., : self.cells].reshape(*values.shape[:-1], *self.shape)

    def at_places(self, field: np.ndarray) -> np.ndarray:
        """A field over the grid (..., y, x) read at every place (..., place), nearest cell."""
        row, column = self.cell_of(self.x, self.y)
        return field[..., row, column]

    def cell_of(self, x: np.ndarray, y: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        """Row and column of the cell in which points lie; points beyond the grid take its edge."""
        row = np.floor((np.asarray(y) - self.bottom) / self.cell).astype(int)
        column = np.floor((np.asarray(x) - self.left) / self.cell).astype(int)
        return np.clip(row, 0, self.shape[0] - 1), np.clip(column, 0, self.shape[1] - 1)

    def nearest(self, x: float, y: float, reach: float = 2.5) -> int:
        """The peg within `reach` metres of a point, else the cell in which it lies."""
        distance = np.hypot(self.x[self.cells :] - x, self.y[self.cells :] - y)
        if distance.size and distance.min() <= reach:
            return self.cells + int(distance.argmin())
        row, column = self.cell_of(np.array(x), np.array(y))
        return int(row * self.shape[1] + column)

    def short_name(self, place: int) -> str:
        """A place on a map, where a peg needs no word before its name."""
        return self.spots[place - self.cells] if place >= self.cells else self.name(place)

    def name(self, place: int) -> str:
        """What people call a place: its peg, or how far it lies east and north."""
        if place >= self.cells:
            return _("peg {name}").format(name=self.spots[place - self.cells])
        east, north = figure(self.x[place], ".0f"), figure(self.y[place], ".0f")
        return _("{east} m east, {north} m north").format(east=east, north=north)


def places_of(site: Site) -> Places:
    """The places of a site: a grid over its boundary with a small margin, and its spots."""
    (rows, columns), left, bottom = extent_of(site)
    grid_y, grid_x = np.mgrid[0:rows, 0:columns]
    x = np.concatenate([left + (grid_x.ravel() + 0.5) * site.cell, [s.x for s in site.spots]])
    y = np.concatenate([bottom + (grid_y.ravel() + 0.5) * site.cell, [s.y for s in site.spots]])
    inside = shapely.contains_xy(site.boundary, x, y)
    names = tuple(spot.name for spot in site.spots)
    return Places(x, y, inside, (rows, columns), site.cell, left, bottom, names)


def extent_of(site: Site, margin: float = 3.0) -> tuple[tuple[int, int], float, float]:
    """Shape (y, x) of the grid over a site's boundary, and its left and bottom edge [m].

    `margin` [m] is the least that it reaches beyond the boundary.
    """
    west, south, east, north = site.boundary.bounds
    left = np.floor((west - margin) / site.cell) * site.cell
    bottom = np.floor((south - margin) / site.cell) * site.cell
    columns = int(np.ceil((east + margin - left) / site.cell))
    rows = int(np.ceil((north + margin - bottom) / site.cell))
    return (rows, columns), float(left), float(bottom)
