"""One tile of a large holding's ground, reckoned as part of the whole.

What a place's ground depends on near by is reckoned from the tile and a margin round it; what it
depends on far off (the horizon, the ground under a distant barrier) from the whole relief.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path
from typing import Any

import numpy as np
import shapely

from model.ground import Ground
from model.ground.climate import Climate
from model.ground.places import Places, extent_of
from model.ground.store import Store
from model.ground.sun import standing_of
from model.ground.wind import rose_of, wind_of
from model.land import temperature
from model.land.horizon import Relief
from model.land.shade import Standing
from model.survey.site import Site
from model.trees import Catalogue

# [m] round a tile: beyond the widest circle that any local field looks at, `wind.ridge_exposure`'s.
MARGIN = 62.0
BAND = 1_000_000  # cells whose heights are read together


@dataclass(frozen=True)
class Tile:
    """Rows and columns of the whole grid, from the first to before the last."""

    rows: tuple[int, int]
    columns: tuple[int, int]


@dataclass(frozen=True)
class Whole:
    """What every tile must know of the whole holding.

    `relief` (y, x) [m] is the ground over the whole grid, whose outer edges are `left` and
    `bottom` [m]; `climate` that of the site, None where no weather is known.
    """

    site: Site
    catalogue: Catalogue
    left: float
    bottom: float
    relief: np.ndarray
    climate: Climate | None

    @property
    def columns(self) -> np.ndarray:
        """East coordinate of each column's centre (x,) [m]."""
        return self.left + (np.arange(self.relief.shape[1]) + 0.5) * self.site.cell

    @property
    def rows(self) -> np.ndarray:
        """North coordinate of each row's centre (y,) [m]."""
        return self.bottom + (np.arange(self.relief.shape[0]) + 0.5) * self.site.cell

    def standing_on(self, x: np.ndarray, y: np.ndarray) -> np.ndarray:
        """Height of the ground in the cells of any points [m], beyond the grid that of its edge."""
        last = np.array(self.relief.shape) - 1
        row = np.floor((y - self.bottom) / self.site.cell).astype(int)
        column = np.floor((x - self.left) / self.site.cell).astype(int)
        return self.relief[np.clip(row, 0, last[0]), np.clip(column, 0, last[1])]

    def tiles(self, size: int) -> Iterator[list[Tile]]:
        """Tiles of `size` cells a side that cover the grid, a row of them at a time."""
        rows, columns = self.relief.shape
        for low in range(0, rows, size):
            up = min(low + size, rows)
            yield [
                Tile((low, up), (left, min(left + size, columns)))
                for left in range(0, columns, size)
            ]


class Unkept(Store):
    """A store that keeps nothing: tiles are asked for once."""

    def kept(self, kind: Any, inputs: Any, compute: Any) -> Any:  # noqa: ARG002 - a store's own call
        """What is computed, anew each time."""
        return compute()


class TileGround(Ground):
    """The ground of a tile and its margin; `places.inside` is the tile's own land alone."""

    def __init__(self, whole: Whole, tile: Tile) -> None:
        super().__init__(whole.site, whole.catalogue, Unkept(Path()))
        self.whole, self.tile = whole, tile
        margin = int(np.ceil(MARGIN / whole.site.cell)) + 1
        self._rows, self._columns = (
            slice(max(first - margin, 0), min(last + margin, length))
            for (first, last), length in zip(
                (tile.rows, tile.columns), whole.relief.shape, strict=True
            )
        )

    def own(self, values: np.ndarray) -> np.ndarray:
        """Values by place (place,) over the tile's own cells (y, x), NaN outside the site."""
        grid = self.places.grid(np.where(self.places.inside, values, np.nan))
        return grid[self._core]

    @property
    def _core(self) -> tuple[slice, slice]:
        rows, columns = self._rows, self._columns
        return (
            slice(self.tile.rows[0] - rows.start, self.tile.rows[1] - rows.start),
            slice(self.tile.columns[0] - columns.start, self.tile.columns[1] - columns.start),
        )

    @cached_property
    def places(self) -> Places:
        """Cells of the tile and its margin."""
        rows, columns = self.whole.rows[self._rows], self.whole.columns[self._columns]
        x, y = (part.ravel() for part in np.meshgrid(columns, rows))
        shape, cell = (len(rows), len(columns)), self.site.cell
        inside = np.zeros(shape, dtype=bool)
        inside[self._core] = True
        core = np.flatnonzero(inside)
        inside.ravel()[core] = shapely.contains_xy(self.site.boundary, x[core], y[core])
        left = self.whole.left + self._columns.start * cell
        bottom = self.whole.bottom + self._rows.start * cell
        return Places(x, y, inside.ravel(), shape, cell, left, bottom, ())

    @cached_property
    def altitude(self) -> np.ndarray:
        """Height of the ground (place,) [m]."""
        return self.whole.relief[self._rows, self._columns].ravel()

    @cached_property
    def standing(self) -> Standing:
        """All that throws shade, the whole relief among it."""
        here = standing_of(self.site, self.catalogue, self.places, self.relief, self.surface)
        whole = self.whole
        return replace(here, relief=Relief(whole.relief, whole.columns, whole.rows))

    @cached_property
    def climate(self) -> Climate | None:
        """The site's climate, read at the tile's altitudes."""
        weather, climate = self.site.weather, self.whole.climate
        if weather is None or climate is None:
            return None
        above = self.altitude - weather.station_altitude
        return replace(climate, place_offset=temperature.station_to_place(above))

    @cached_property
    def wind(self) -> np.ndarray | None:
        """Share of open wind left (place,)."""
        rose = rose_of(self.site)
        if rose is None:
            return None
        where = (self.site, self.catalogue, self.places, self.relief)
        return wind_of(*where, rose, self.whole.standing_on)


def whole_of(site: Site, catalogue: Catalogue, climate: Climate | None) -> Whole:
    """The whole of a site over its grid of `site.cell`; its heights are read band by band."""
    shape, left, bottom = extent_of(site)
    surface = Ground(site, catalogue).surface
    whole = Whole(replace(site, spots=()), catalogue, left, bottom, np.empty(shape), climate)
    step = max(1, BAND // shape[1])
    for first in range(0, shape[0], step):
        x, y = np.meshgrid(whole.columns, whole.rows[first : first + step])
        whole.relief[first : first + step] = surface(x, y)
    return whole
