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
from model.land.shade import Standing, sunlight, views
from model.land.sky import Sky
from model.land.slope_light import bright_hours
from model.land.sun_patches import SunPatches
from model.survey.feature import Feature
from model.survey.site import Site
from model.trees import Catalogue

Surface = Callable[[np.ndarray, np.ndarray], np.ndarray]
CROWN = 2.0  # [m] height at which a young tree's crown meets the sun (common practice, no source)
CLEAR_STEM = 0.2  # share of a neighbour's height below its crown (common practice, no source)
STRONG = 500.0  # [W/m2 on the level] from which an hour of sun counts whole (model choice)
UPRIGHT = ("building", "wall", "hedge", "woodland")
DAYS_IN_MONTH = np.array([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])


@dataclass(frozen=True)
class SunnyPlace:
    """A bed, panel or window that wants its sun: what it is called, and its eye (3,) [m].

    `summer` holds patches of sky and the sun that reaches the eye through each in the growing
    season (patch,) [h a day], as much as stands there now lets through.
    """

    label: str
    eye: np.ndarray
    summer: tuple[tuple[Sky, np.ndarray], ...]


@dataclass(frozen=True)
class Sun:
    """Direct sun at crown height as if no day were cloudy.

    `strong`, `hours` and `morning` (month, place) [h a day], January first. `hours` counts every
    hour whole, `strong` each by its strength, whole from `STRONG` up, so that the low sun that a
    wood on the pole side takes counts for little; `morning` is before ten by solar time.
    """

    strong: np.ndarray
    hours: np.ndarray
    morning: np.ndarray

    def a_day(self, by_month: np.ndarray, months: tuple[int, ...]) -> np.ndarray:
        """Mean over some months of hours a day by month (month, place) to (place,) [h]."""
        return np.average(by_month[list(months)], axis=0, weights=DAYS_IN_MONTH[list(months)])


def sun_of(places: Places, altitude: np.ndarray, standing: Standing, latitude: float) -> Sun:
    """The year's sun at every place; `altitude` (place,) [m] of the ground."""
    inside = np.flatnonzero(places.inside)
    eyes = np.column_stack([places.x, places.y, altitude + CROWN])[inside]
    worths = (_strong_hours, sun_patches.sun_hours, sun_patches.morning_hours)
    by_month = np.full((len(worths), 12, places.x.size), np.nan)
    by_month[:, :, inside] = sunlight(eyes, standing, latitude, worths)
    strong, hours, morning = by_month / DAYS_IN_MONTH[:, None]
    return Sun(strong, hours, morning)


def _strong_hours(patches: SunPatches) -> np.ndarray:
    """Hours of sun by strength, whole from `STRONG` up (month, patch) [h a month]."""
    return bright_hours(patches, STRONG)


def sunny_places(site: Site, surface: Surface, standing: Standing) -> tuple[SunnyPlace, ...]:
    """The beds, panels and windows of a site that want their sun."""
    months = sun_patches.summer_months(site.latitude)
    days = DAYS_IN_MONTH[list(months)].sum()
    sunny = []
    for feature in site.of_kind("sun_wanted"):
        eye = _eye(feature, surface)
        summer = tuple(
            (patches.sky, sun_patches.sun_hours(patches).sum(axis=0) * view[0] / days)
            for _, patches, view in views(eye[None], standing, site.latitude, months)
        )
        sunny.append(SunnyPlace(described(feature), eye, summer))
    return tuple(sunny)


def standing_of(
    site: Site,
    catalogue: Catalogue,
    places: Places,
    z: np.ndarray,
    surface: Surface,
    grown: bool = True,
) -> Standing:
    """All that throws shade: ground, buildings, walls, hedges, woods and trees.

    Single trees stand at their full size, or as they are now when not `grown`.
    """
    leaf = leaf_share(site.latitude)
    return Standing(
        screens=[s for f in site.of_kind(*UPRIGHT) for s in _screens(f, catalogue, leaf, surface)],
        crowns=[_crown(f, catalogue, leaf, surface, grown) for f in site.of_kind("neighbour_tree")],
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


def _crown(
    tree: Feature, catalogue: Catalogue, leaf: np.ndarray, surface: Surface, grown: bool
) -> Crown:
    """A neighbour tree, full grown or as it stands now."""
    x, y = tree.geometry.centroid.x, tree.geometry.centroid.y
    ground = float(surface(np.array([x]), np.array([y]))[0])
    height = full_height(tree, catalogue) if grown else tree.number("height_m")
    spread = full_crown(tree, catalogue) if grown else tree.number("crown_m")
    return Crown(
        x=x,
        y=y,
        radius=spread / 2,
        base=ground + CLEAR_STEM * height,
        top=ground + height,
        transmission=_through(tree, catalogue, leaf),
    )


def _eye(feature: Feature, surface: Surface) -> np.ndarray:
    """Where a place wants its sun: x, y and height (3,) [m]."""
    middle = feature.geometry.representative_point()
    ground = float(surface(np.array([middle.x]), np.array([middle.y]))[0])
    return np.array([middle.x, middle.y, ground + feature.number("height_m")])
