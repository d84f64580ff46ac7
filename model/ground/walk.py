"""Walking from the hub: open ground, gates and paths as a grid, and the times over it."""

from collections.abc import Sequence

import numpy as np
import shapely
from shapely.geometry import LineString

from model.ground.places import Places
from model.land import walking
from model.survey.feature import Feature
from model.survey.site import Site

BARRIERS = ("building", "wall", "fence", "hedge", "watercourse")
GATE_CELLS = 2.2  # a gate opens the cells that the barrier beside it closes
OFF_PATH = 1 / 0.6  # Tobler (1993): speed off a path is 0.6 of that on one


def walk_of(site: Site, start: tuple[float, float], places: Places, z: np.ndarray) -> np.ndarray:
    """Walking time from a point (the hub, a tap) to every place and back again, (place,) [s].

    `z` (y, x) [m] are heights over the grid. Places that no way reaches are NaN.
    """
    open_ground = _open_ground(site, places)
    row, column = places.cell_of(np.array(start[0]), np.array(start[1]))
    cell = walking.nearest_open(open_ground, (int(row), int(column)))
    factor = np.where(_on_path(site, places), 1.0, OFF_PATH)
    out, back = walking.walking_time(z, places.cell, open_ground, cell, factor)
    both = out + back
    return places.at_places(np.where(np.isfinite(both), both, np.nan))


def _open_ground(site: Site, places: Places) -> np.ndarray:
    """Where a person can walk (y, x): the site and its paths; barriers closed, gates open.

    Beyond the boundary only paths are open: the land there is somebody else's.
    """
    barriers = site.of_kind(*BARRIERS)
    shut = _within(places, [_as_wide(f) for f in barriers])
    shut |= _crossed(places, [f.geometry for f in barriers])
    ours = places.grid(places.inside) | _on_path(site, places)
    return (ours & ~shut) | _within(places, gateways(site, places.cell))


def gateways(site: Site, cell: float) -> list[shapely.Geometry]:
    """The ground that each gate opens, wide enough to pass the cells beside it."""
    gates = site.of_kind("gate")
    return [g.geometry.buffer(max(g.number("width_m"), GATE_CELLS * cell) / 2) for g in gates]


def _as_wide(feature: Feature) -> shapely.Geometry:
    """The ground that a barrier takes up."""
    if feature.geometry.geom_type == "Polygon":
        return feature.geometry
    return feature.geometry.buffer(feature.number("width_m") / 2, cap_style="flat")


def _on_path(site: Site, places: Places) -> np.ndarray:
    """Which cells lie on a path (y, x)."""
    paths = site.of_kind("path")
    return _within(
        places, [f.geometry.buffer(max(f.number("width_m"), places.cell) / 2) for f in paths]
    )


def _within(places: Places, shapes: Sequence[shapely.Geometry]) -> np.ndarray:
    """Cells whose centre lies in any of the shapes (y, x)."""
    x, y = np.meshgrid(places.columns, places.rows)
    return np.asarray(shapely.contains_xy(shapely.union_all(shapes), x, y))


def _crossed(places: Places, shapes: Sequence[shapely.Geometry]) -> np.ndarray:
    """Cells that any of the shapes' lines run through (y, x), so that a thin wall has no holes."""
    x, y = np.meshgrid(places.columns, places.rows)
    half = places.cell / 2
    lines = shapely.union_all([s for s in shapes if isinstance(s, LineString)])
    shapely.prepare(lines)
    return np.asarray(
        shapely.intersects(lines, shapely.box(x - half, y - half, x + half, y + half))
    )
