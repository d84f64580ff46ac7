"""Walking from the hub: open ground, gates and paths as a grid, and the times over it."""

from collections.abc import Sequence

import numpy as np
import shapely

from model.ground.places import Places
from model.land import walking
from model.survey.feature import Feature
from model.survey.site import Site

BARRIERS = ("building", "wall", "fence", "hedge", "watercourse")
GATE_CELLS = 2.2  # a gate opens the cells that the barrier beside it closes
OFF_PATH = 1 / 0.6  # Tobler (1993): speed off a path is 0.6 of that on one


def walk_of(site: Site, hub: tuple[float, float], places: Places, z: np.ndarray) -> np.ndarray:
    """Walking time from the hub to every place and back again, (place,) [s].

    `z` (y, x) [m] are heights over the grid. Places that no way reaches are NaN.
    """
    open_ground = _open_ground(site, places)
    start = places.cell_of(np.array(hub[0]), np.array(hub[1]))
    open_ground[start] = True
    factor = np.where(_on_path(site, places), 1.0, OFF_PATH)
    row, column = int(start[0]), int(start[1])
    out, back = walking.walking_time(z, places.cell, open_ground, (row, column), factor)
    both = out + back
    return places.at_places(np.where(np.isfinite(both), both, np.nan))


def _open_ground(site: Site, places: Places) -> np.ndarray:
    """Where a person can walk (y, x): barriers closed, gates and bridges open."""
    shut = _touched(places, [_barrier(f, places.cell) for f in site.of_kind(*BARRIERS)])
    gates = [
        f.geometry.buffer(max(f.number("width_m"), GATE_CELLS * places.cell) / 2)
        for f in site.of_kind("gate")
    ]
    return ~shut | _touched(places, gates)


def _barrier(feature: Feature, cell: float) -> shapely.Geometry:
    """A barrier as wide as a cell at least, so that a line drawn over the grid has no holes."""
    if feature.geometry.geom_type == "Polygon":
        return feature.geometry
    return feature.geometry.buffer(max(feature.number("width_m"), cell) / 2, cap_style="flat")


def _on_path(site: Site, places: Places) -> np.ndarray:
    """Which cells lie on a path (y, x)."""
    paths = site.of_kind("path")
    return _touched(
        places, [f.geometry.buffer(max(f.number("width_m"), places.cell) / 2) for f in paths]
    )


def _touched(places: Places, shapes: Sequence[shapely.Geometry]) -> np.ndarray:
    """Cells whose centre lies in any of the shapes (y, x)."""
    if not shapes:
        return np.zeros(places.shape, dtype=bool)
    x, y = np.meshgrid(places.columns, places.rows)
    return np.asarray(shapely.contains_xy(shapely.union_all(shapes), x, y))
