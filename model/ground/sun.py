"""The sun at every place: what ground, buildings, hedges, woods and trees leave of it by month."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
import shapely

from model.ground.obstacles import described, full_crown, full_height
from model.ground.places import Places
from model.ground.root_zones import kinds_of
from model.land import sun_patches
from model.land.covers import Crown, Screen
from model.land.horizon import Relief
from model.land.leaf_season import leaf_share, monthly_transmission
from model.land.shade import Standing, sunlight
from model.survey.feature import Feature
from model.survey.site import Site
from model.trees import Catalogue

Surface = Callable[[np.ndarray, np.ndarray], np.ndarray]
CROWN = 2.0  # [m] height at which a young tree's crown meets the sun (common practice, no source)
CLEAR_STEM = 0.2  # share of a neighbour's height below its crown (common practice, no source)
UPRIGHT = ("building", "wall", "hedge", "woodland")
DAYS_IN_MONTH = np.array([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])


@dataclass(frozen=True)
class SunnyPlace:
    """A bed, panel or window that wants its sun: what it is called, and its eye (3,) [m]."""

    label: str
    eye: np.ndarray


@dataclass(frozen=True)
class Sun:
    """Direct sun at crown height as if no day were cloudy.

    `hours` and `morning` (month, place) [h a day], January first, the morning's before ten by
    solar time; `standing` is all that throws shade now, neighbours at their full size; `wanted`
    are the places that a new tree should leave their sun.
    """

    hours: np.ndarray
    morning: np.ndarray
    standing: Standing
    wanted: tuple[SunnyPlace, ...]

    def a_day(self, by_month: np.ndarray, months: tuple[int, ...]) -> np.ndarray:
        """Mean over some months of hours a day by month (month, place) to (place,) [h]."""
        return np.average(by_month[list(months)], axis=0, weights=DAYS_IN_MONTH[list(months)])


def sun_of(
    site: Site, catalogue: Catalogue, places: Places, z: np.ndarray, surface: Surface
) -> Sun:
    """The year's sun on a site; `z` (y, x) [m] over the grid, `surface` gives it at any points."""
    standing = standing_of(site, catalogue, places, z, surface)
    inside = np.flatnonzero(places.inside)
    eyes = np.column_stack([places.x, places.y, surface(places.x, places.y) + CROWN])[inside]
    worths = (sun_patches.sun_hours, sun_patches.morning_hours)
    by_month = np.full((2, 12, places.x.size), np.nan)
    by_month[:, :, inside] = sunlight(eyes, standing, site.latitude, worths)
    hours, morning = by_month / DAYS_IN_MONTH[:, None]
    wanted = tuple(_wanted(feature, surface) for feature in site.of_kind("sun_wanted"))
    return Sun(hours, morning, standing, wanted)


def standing_of(
    site: Site, catalogue: Catalogue, places: Places, z: np.ndarray, surface: Surface
) -> Standing:
    """All that throws shade: ground, buildings, walls, hedges, woods and full-grown trees."""
    leaf = leaf_share(site.latitude)
    return Standing(
        screens=[s for f in site.of_kind(*UPRIGHT) for s in _screens(f, catalogue, leaf, surface)],
        crowns=[_crown(f, catalogue, leaf, surface) for f in site.of_kind("neighbour_tree")],
        relief=Relief(z, places.columns, places.rows),
    )


def _screens(
    feature: Feature, catalogue: Catalogue, leaf: np.ndarray, surface: Surface
) -> list[Screen]:
    """A building, wall, hedge or wood as it stands, its top following the ground."""
    height = feature.number("height_m")
    through = _through(feature, catalogue, leaf)
    line = feature.geometry
    corners = shapely.get_coordinates(shapely.boundary(line) if line.area else line)
    top = surface(*((corners[:-1] + corners[1:]) / 2).T) + height
    return [Screen(corners, top, through)]


def _through(feature: Feature, catalogue: Catalogue, leaf: np.ndarray) -> np.ndarray:
    """Share of the beam let through by month (month,): none by walls, some by leaves."""
    if "species" not in feature.attributes:
        return np.zeros(12)
    kinds = kinds_of(feature, catalogue)
    shares = [monthly_transmission(k.transmission_leaf, k.transmission_bare, leaf) for k in kinds]
    return np.mean(shares, axis=0)


def _crown(tree: Feature, catalogue: Catalogue, leaf: np.ndarray, surface: Surface) -> Crown:
    """A neighbour tree full grown."""
    x, y = tree.geometry.centroid.x, tree.geometry.centroid.y
    ground = float(surface(np.array([x]), np.array([y]))[0])
    height = full_height(tree, catalogue)
    return Crown(
        x=x,
        y=y,
        radius=full_crown(tree, catalogue) / 2,
        base=ground + CLEAR_STEM * height,
        top=ground + height,
        transmission=_through(tree, catalogue, leaf),
    )


def _wanted(feature: Feature, surface: Surface) -> SunnyPlace:
    middle = feature.geometry.representative_point()
    ground = float(surface(np.array([middle.x]), np.array([middle.y]))[0])
    eye = np.array([middle.x, middle.y, ground + feature.number("height_m")])
    return SunnyPlace(described(feature), eye)
