"""The valued views: each window, and what already stands in it."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
import shapely

from model.ground.obstacles import described, full_crown, full_height
from model.ground.places import Places
from model.land.skyline import Skyline, skyline
from model.land.window import Window
from model.survey.feature import Feature
from model.survey.site import Site
from model.trees import Catalogue

Surface = Callable[[np.ndarray, np.ndarray], np.ndarray]
UPRIGHT = ("building", "wall", "hedge", "woodland")
FACE = 5.0  # [m] longest face with one top, so that a long hedge follows the slope
INDOORS = 0.5  # [m] a view drawn this near a building's face looks out of that building


@dataclass(frozen=True)
class View:
    """One window and its skyline, the wish for it (keep or screen) and its importance (0 to 1)."""

    label: str
    wish: str
    importance: float
    window: Window
    skyline: Skyline


@dataclass(frozen=True)
class Views:
    """The site's valued views, and the height of the ground at every place (place,) [m]."""

    views: tuple[View, ...]
    ground: np.ndarray


def views_of(
    site: Site, catalogue: Catalogue, places: Places, z: np.ndarray, surface: Surface
) -> Views:
    """The views of a site over its ground, standing trees (full grown), hedges and buildings.

    `z` (y, x) [m] are heights over the grid, `surface` gives them at any points.
    """
    crowns = [_crown(tree, catalogue, surface) for tree in site.of_kind("neighbour_tree")]
    views = tuple(
        _view(feature, site, places, z, crowns, surface) for feature in site.of_kind("view")
    )
    return Views(views, surface(places.x, places.y))


def _view(
    feature: Feature, site: Site, places: Places, z: np.ndarray, crowns: list, surface: Surface
) -> View:
    window = _window(feature, surface)
    own = feature.geometry.buffer(INDOORS)
    standing = [
        f
        for f in site.of_kind(*UPRIGHT)
        if not (f.kind == "building" and f.geometry.intersects(own))
    ]
    walls = [face for f in standing for face in _faces(f, surface)]
    return View(
        label=described(feature),
        wish=feature.words("wish"),
        importance=feature.number("importance"),
        window=window,
        skyline=skyline(window, z, places.columns, places.rows, crowns, walls),
    )


def _window(feature: Feature, surface: Surface) -> Window:
    """A view's window, its eye raised above the ground."""
    x, y = feature.geometry.centroid.x, feature.geometry.centroid.y
    return Window(
        x=x,
        y=y,
        eye=_height(surface, x, y) + feature.number("eye_height_m"),
        bearing=feature.number("bearing_deg"),
        width=feature.number("width_deg"),
        low=feature.number("low_deg"),
        high=feature.number("high_deg"),
        range=feature.number("range_m"),
    )


def _crown(tree: Feature, catalogue: Catalogue, surface: Surface) -> tuple[float, ...]:
    """A standing tree at full size: x, y, crown radius, ground and top [m]."""
    x, y = tree.geometry.centroid.x, tree.geometry.centroid.y
    ground = _height(surface, x, y)
    return x, y, full_crown(tree, catalogue) / 2, ground, ground + full_height(tree, catalogue)


def _faces(feature: Feature, surface: Surface) -> list[tuple[float, ...]]:
    """Upright faces of a building, wall, hedge or wood: ends and top height [m]."""
    line = feature.geometry
    outline = shapely.boundary(line) if line.area else line
    corners = shapely.get_coordinates(shapely.segmentize(outline, FACE))
    tops = surface(*((corners[:-1] + corners[1:]) / 2).T) + feature.number("height_m")
    return [
        (*start, *end, top) for start, end, top in zip(corners, corners[1:], tops, strict=False)
    ]


def _height(surface: Surface, x: float, y: float) -> float:
    """Height of the ground at one point [m]."""
    return float(surface(np.array([x]), np.array([y]))[0])
