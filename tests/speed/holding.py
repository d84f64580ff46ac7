"""Invented holdings of any size: the same few things stand on each, on ground of one kind."""

import numpy as np
from shapely.geometry import LineString, Point, box

from model.survey.feature import Feature
from model.survey.heights import RasterHeights
from model.survey.site import Site
from model.survey.wind import Wind
from tests.model.small_site import feature, monthly_weather, site, tree

TREES = 12
YEARS = 10


def hills(side: float, cell: float) -> RasterHeights:
    """Rolling ground over a square, one long slope with valleys and roughness (y, x) [m]."""
    axis = np.arange(-10 * cell, side + 10 * cell, cell)
    x, y = np.meshgrid(axis, axis)
    z = 60 + 0.03 * y + 3 * np.sin(x / 40) * np.cos(y / 30)
    z += np.random.default_rng(1).normal(0, 0.03, z.shape)
    return RasterHeights(axis, axis, z)


def drawn(side: float) -> list[Feature]:
    """A house with its tap and view, a hedge, a path, a pipe, a run of deer and twelve trees."""
    middle = side / 2
    places = np.random.default_rng(2).uniform(0, side, (TREES, 2))
    return [
        feature("boundary", box(0, 0, side, side)),
        *(tree("oak", x, y, 12.0, 8.0, f"oak {n}") for n, (x, y) in enumerate(places)),
        feature(
            "hedge", LineString([(0, 0.9 * side), (side, 0.95 * side)]), species="hawthorn",
            height_m=2.0, width_m=1.5,
        ),
        feature("building", box(middle - 5, middle - 4, middle + 5, middle + 4), height_m=6.0),
        feature("path", LineString([(middle, 0), (middle, middle - 6)]), width_m=2.0),
        feature("tap", Point(middle + 8, middle)),
        feature(
            "view", Point(middle, middle - 6), bearing_deg=180.0, width_deg=60.0, low_deg=-5.0,
            high_deg=10.0, range_m=150.0, eye_height_m=1.6, wish="keep", importance=1.0,
        ),
        feature(
            "buried_service", LineString([(0.2 * side, 0), (0.25 * side, side)]), service="water",
            clearance_m=2.0,
        ),
        feature("animal_run", LineString([(0, 0.2 * side), (side, 0.3 * side)]), animal="deer"),
    ]  # fmt: skip


def holding(side: float, cell: float, surveyed: float | None = None) -> Site:
    """A square holding of `side` metres, judged in cells of `cell`, its heights as finely known."""
    return site(
        drawn(side),
        heights=hills(side, surveyed or cell),
        hub=(side / 2, side / 2 - 6.5),
        cell=cell,
        wind=Wind(4.0, (1, 1, 1, 2, 2, 4, 3, 2)),
        weather=monthly_weather(years=YEARS),
    )
