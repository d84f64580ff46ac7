"""Walking from the hub: open ground, gates and paths as a grid, and the times over it."""

import numpy as np
import shapely

from model.ground.places import Places
from model.land import walking
from model.survey.site import Site

BARRIERS = ("building", "wall", "fence", "hedge", "watercourse")
OFF_PATH = 1 / 0.6  # Tobler (1993): speed off a path is 0.6 of that on one


def walk_of(site: Site, places: Places, z: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Walking time from the hub to every place and back again, (place,) each [s].

    `z` (y, x) [m] are heights over the grid. Places that no way reaches are NaN.
    """
    open_ground = _open_ground(site, places)
    start = places.cell_of(np.array(site.hub[0]), np.array(site.hub[1]))
    open_ground[start] = True
    factor = np.where(_on_path(site, places), 1.0, OFF_PATH)
    hub = (int(start[0]), int(start[1]))
    times = walking.walking_time(z, places.cell, open_ground, hub, factor)
    return tuple(places.at_places(np.where(np.isfinite(time), time, np.nan)) for time in times)


def _open_ground(site: Site, places: Places) -> np.ndarray:
    """Where a person can walk (y, x): barriers closed, gates and bridges open."""
    shut = _touched(places, [_barrier(f, places.cell) for f in site.of_kind(*BARRIERS)])
    gates = [
        f.geometry.buffer(max(f.attributes["width_m"], places.cell * 2.2) / 2)
        for f in site.of_kind("gate")
    ]
    return ~shut | _touched(places, gates)


def _barrier(feature, cell: float) -> shapely.Geometry:
    """A barrier as wide as a cell at least, so that a line drawn over the grid has no holes."""
    if feature.geometry.geom_type == "Polygon":
        return feature.geometry
    return feature.geometry.buffer(max(feature.attributes["width_m"], cell) / 2, cap_style="flat")


def _on_path(site: Site, places: Places) -> np.ndarray:
    """Which cells lie on a path (y, x)."""
    return _touched(
        places,
        [
            f.geometry.buffer(max(f.attributes["width_m"], places.cell) / 2)
            for f in site.of_kind("path")
        ],
    )


def _touched(places: Places, shapes: list[shapely.Geometry]) -> np.ndarray:
    """Cells whose centre lies in any of the shapes (y, x)."""
    if not shapes:
        return np.zeros(places.shape, dtype=bool)
    x, y = np.meshgrid(places.columns, places.rows)
    return shapely.contains_xy(shapely.union_all(shapes), x, y)
