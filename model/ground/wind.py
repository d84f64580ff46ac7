"""The wind at every place: the wind rose over belts, hedges, walls, buildings and ridges."""

from collections.abc import Callable
from itertools import pairwise

import numpy as np
import shapely

from model.ground.obstacles import full_crown, full_height
from model.ground.places import Places
from model.ground.root_zones import kinds_of
from model.land import shelter, wind
from model.survey.feature import Feature
from model.survey.site import Site
from model.survey.wind import POINTS
from model.trees import Catalogue

Surface = Callable[[np.ndarray, np.ndarray], np.ndarray]
# Share of a barrier that the eye cannot see through (model choice: common practice, no source).
DENSITY = {"building": 1.0, "wall": 1.0, "fence": 0.4, "hedge": 0.7, "woodland": 0.6}
SECTORS = np.arange(len(POINTS)) * 45.0
CROWN = 1.5  # [m] what is lower shelters no crown (model choice: common practice, no source)
LEAST = 0.3  # [m] keeps distances in heights finite
SINGLE = 0.5  # density of a single crown
EVERGREEN = 0.15  # denser by this much


def rose_of(site: Site) -> np.ndarray | None:
    """Share of the wind from each bearing (bearing,), by hourly record or site.toml; else None."""
    if site.weather is not None and {"wind", "wind_direction"} <= set(site.weather.table):
        table = site.weather.table
        return wind.wind_rose(table["wind"].to_numpy(), table["wind_direction"].to_numpy())
    if site.wind is None:
        return None
    return wind.finer_rose(SECTORS, site.wind.shares)


def wind_of(
    site: Site,
    catalogue: Catalogue,
    places: Places,
    z: np.ndarray,
    rose: np.ndarray,
    standing_on: Surface | None = None,
) -> np.ndarray:
    """Share of open wind that a tree feels at every place (place,) [1].

    `z` (y, x) [m]; `rose` (bearing,). Above 1 on a ridge. `standing_on` gives the ground's height
    under barriers that may stand beyond the grid; without it the grid's edge does.
    """
    standing_on = standing_on or (lambda x, y: z[places.cell_of(x, y)])
    lie = places.at_places(wind.ridge_exposure(z, places.cell))
    pieces = [p for f in site.of_kind(*DENSITY) for p in _pieces(f, catalogue)]
    pieces += [p for tree in site.of_kind("neighbour_tree") for p in _crown(tree, catalogue)]
    if not pieces:
        return lie
    table = np.array(pieces)
    foot = places.at_places(z)
    stand = standing_on(table[:, [0, 2]].mean(axis=1), table[:, [1, 3]].mean(axis=1))
    height = np.maximum(stand + table[:, 4] - foot[:, None] - CROWN, LEAST)
    felt = shelter.sheltered_wind(
        places.x, places.y, table[:, :4], height, table[:, 5], wind.BEARINGS
    )
    return lie * wind.by_rose(felt, rose)


def _crown(tree: Feature, catalogue: Catalogue) -> list[tuple[float, ...]]:
    """A single tree full grown, as two crossed pieces as wide as its crown."""
    x, y = tree.geometry.centroid.x, tree.geometry.centroid.y
    half, height = full_crown(tree, catalogue) / 2, full_height(tree, catalogue)
    ends = ((x - half, y, x + half, y), (x, y - half, x, y + half))
    return [(*end, height, SINGLE) for end in ends]


def _pieces(feature: Feature, catalogue: Catalogue) -> list[tuple[float, ...]]:
    """Straight pieces of a barrier: both ends, height and density."""
    line = feature.geometry
    corners = shapely.get_coordinates(shapely.boundary(line) if line.area else line)
    height, density = feature.number("height_m"), DENSITY[feature.kind]
    if "species" in feature.attributes:
        kinds = kinds_of(feature, catalogue)
        density += EVERGREEN * float(np.mean([kind.evergreen for kind in kinds]))
    return [(*a, *b, height, density) for a, b in pairwise(corners)]
