"""Land layers that no library reckons, against a plain loop: a place, a day or a cell at a time."""

from collections import deque
from itertools import pairwise
from math import cos, hypot, pi

import numpy as np
from scipy.ndimage import convolve
from shapely.geometry import LineString, Point, Polygon, box

from model.ground.fungi import fungal_links
from model.ground.obstacles import obstacles_of
from model.ground.services import services_of
from model.land import cold_air, heat, roots, water_balance, waterlogging
from model.land.wetness import without_pits
from model.trees import neighbour
from tests.model.small_site import CATALOGUE, feature, site, tree

from .comparison import Comparison
from .references import CELL, Pair, Values, compared, hills

YEARS, DAYS, PLACES = 10, 365, 40
RAIN = np.random.default_rng(1).gamma(0.4, 5.0, (YEARS, DAYS))  # [mm/day]
USE = np.broadcast_to(2.5 - 2 * np.cos(2 * pi * np.arange(DAYS) / DAYS), RAIN.shape)  # [mm/day]
SPREAD = np.random.default_rng(2).uniform(0, 100, (2, 10_000))  # places [m]


def comparisons() -> list[Comparison]:
    """A line a layer."""
    return [compared(pair) for pair in (*_water(), *_near(), *_field())]


def _water() -> list[Pair]:
    """Warmth, water brought and standing water."""
    held, rates = np.linspace(20, 160, PLACES), np.linspace(0.2, 6, PLACES)
    hours = 12 + 10 * np.sin(np.arange(8760) / 24) + 6 * np.cos(np.arange(8760) / 1200)
    return [
        Pair(
            "season heat of a year [K h]", "Anderson's two cosines, an hour at a time",
            lambda: heat.growing_degree_hours(hours),
            lambda: np.array(sum(map(_degree_hours, hours.tolist()))), 1e-6,
        ),
        Pair(
            f"water brought, {PLACES} soils × {YEARS} years [mm]", "FAO-56, a day at a time",
            lambda: water_balance.root_zone(RAIN, USE, np.full(DAYS, 0.9), held, True).watered,
            lambda: np.array([[_brought(water, year) for year in range(YEARS)] for water in held]),
            1e-9,
        ),
        Pair(
            f"wet months, {PLACES} places × {YEARS} years", "a bucket a place, a day at a time",
            lambda: waterlogging.wet_months(RAIN, rates, 60.0, USE),
            lambda: np.array([_wet(rate) for rate in rates]), 1e-9,
        ),
    ]  # fmt: skip


def _degree_hours(warmth: float) -> float:
    """Worth of an hour: Anderson, Richardson & Kesner (1986), Acta Horticulturae 184:71-78."""
    if warmth < 4 or warmth > 36:
        return 0.0
    if warmth <= 25:
        return 21 / 2 * (1 + cos(pi + pi * (warmth - 4) / 21))
    return 21 * (1 + cos(pi / 2 + pi / 2 * (warmth - 25) / (36 - 25)))


def _brought(held: float, year: int) -> list[float]:
    """Water brought on each day of a year [mm]: FAO-56, equations 82 to 88 and table 22."""
    lacking, brought = 0.0, []
    for rain, use in zip(RAIN[year].tolist(), (0.9 * USE[year]).tolist(), strict=True):
        free = min(max(0.5 + 0.04 * (5 - use), 0.1), 0.8)
        still = min(max((held - lacking) / max((1 - free) * held, 1e-9), 0.0), 1.0)
        lacking = max(lacking + min(still * use, held - lacking + rain) - rain, 0.0)
        brought.append(max(lacking - free * held, 0.0))
        lacking -= brought[-1]
    return brought


def _wet(rate: float) -> float:
    """Months a year in which more than half of 60 mm of pores are full."""
    standing, days = 0.0, 0
    for rain, use in zip(RAIN.ravel().tolist(), USE.ravel().tolist(), strict=True):
        standing = min(max(standing + rain - rate - use, 0.0), 60.0)
        days += standing > 30.0
    return days / (YEARS * DAYS / 12)


def _near() -> list[Pair]:
    """Distances from things drawn, and the link to hosts of fungi."""
    edge, house = box(0, 0, 100, 100), Polygon([(30, 30), (60, 35), (55, 60), (28, 50)])
    pipe = LineString([(10, 0), (40, 45), (95, 80)])
    oaks = [tree("oak", x, y, 12.0, 8.0, f"oak {n}") for n, (x, y) in enumerate(SPREAD.T[:12])]
    land = site([
        feature("boundary", edge), feature("building", house, height_m=6.0),
        feature("buried_service", pipe, service="water", clearance_m=2.0),
    ])  # fmt: skip
    wooded = site([feature("boundary", edge), *oaks])
    few = SPREAD[:, :2_000]
    return [
        Pair(
            "distance to the nearest obstacle, 10,000 places [m]", "segment by segment",
            lambda: obstacles_of(land, CATALOGUE, *SPREAD).nearest()[0],
            lambda: np.minimum(_inside(edge), -_inside(house)), 1e-4,
        ),
        Pair(
            "distance to a service, 10,000 places [m]", "segment by segment",
            lambda: services_of(land, *SPREAD).distance[0], lambda: _apart(pipe), 1e-4,
        ),
        Pair(
            "link to hosts of fungi, 2,000 places × 12 trees", "tree by tree, place by place",
            lambda: fungal_links(wooded, CATALOGUE, *few)[1],
            lambda: np.array([_linked(oaks, *place) for place in few.T.tolist()]), 1e-9,
        ),
    ]  # fmt: skip


def _apart(line: LineString) -> Values:
    """Distance of the spread places from a line (place,) [m]: to the foot on each of its parts."""
    x, y = SPREAD
    nearest = np.full(x.shape, np.inf)
    points = np.array(line.coords)
    for (x0, y0), (x1, y1) in pairwise(points):
        along = ((x - x0) * (x1 - x0) + (y - y0) * (y1 - y0)) / ((x1 - x0) ** 2 + (y1 - y0) ** 2)
        foot = np.clip(along, 0, 1)
        away = np.hypot(x - x0 - foot * (x1 - x0), y - y0 - foot * (y1 - y0))
        nearest = np.minimum(nearest, away)
    return nearest


def _inside(shape: Polygon) -> Values:
    """Distance from the edge of a polygon (place,) [m], negative outside: sides over it counted."""
    x, y = SPREAD
    crossed = np.zeros(x.shape, dtype=int)
    points = np.array(shape.exterior.coords)
    for (x0, y0), (x1, y1) in pairwise(points):
        if x0 != x1:
            crossed += (
                (np.minimum(x0, x1) <= x)
                & (x < np.maximum(x0, x1))
                & (y < y0 + (x - x0) * (y1 - y0) / (x1 - x0))
            )
    return np.where(crossed % 2, 1, -1) * _apart(shape.exterior)


def _linked(oaks: list, x: float, y: float) -> float:
    """Link of a place to oaks: 1 less the product of what each of them leaves."""
    left = 1.0
    for oak in oaks:
        height, crown = oak.number("full_height_m"), oak.number("full_crown_m") / 2
        ends = height * neighbour(CATALOGUE, "oak").root_reach_per_height
        away = hypot(x - oak.geometry.x, y - oak.geometry.y)
        near = min(crown, ends)
        fall = max(away - near, 0.0) / (ends - near) if ends > near else 0.0
        left *= 1 - (0.0 if away > ends else (1 - min(fall, 1.0)) ** roots.DECAY)
    return 1 - left


def _field() -> list[Pair]:
    """Roots in circles and the ground that cold air runs to."""
    held = np.random.default_rng(3).uniform(0, 1, (80, 80))
    small = hills(30)
    return [
        Pair(
            "roots in a circle of 5 m, 6,400 cells", "scipy's convolution, cells cut by shapely",
            lambda: roots.disc_mean(held, CELL, [5.0])[0],
            lambda: _circle_means(held, 5.0 / CELL), 5e-3,
        ),
        Pair(
            "height over the drain, 900 cells [m]", "every way down from every cell",
            lambda: cold_air.height_above_drain(small), lambda: _above_drain(small), 1e-9,
        ),
    ]  # fmt: skip


def _circle_means(held: Values, radius: float) -> Values:
    """Mean in the circle about each cell, the known cells weighted by their share inside."""
    half = int(np.ceil(radius + 0.5))
    circle = Point(0, 0).buffer(radius, quad_segs=64)
    steps = range(-half, half + 1)
    share = np.array([
        [circle.intersection(box(x - 0.5, y - 0.5, x + 0.5, y + 0.5)).area for x in steps]
        for y in steps
    ])  # fmt: skip
    total, weight = (convolve(one, share, mode="constant") for one in (held, np.ones_like(held)))
    return total / weight


def _above_drain(z: Values) -> Values:
    """Height over the lowest ground that a way which never rises leads to (y, x) [m]."""
    level = without_pits(z)
    rows, columns = z.shape
    above = np.empty_like(z)
    for start in np.ndindex(*z.shape):
        seen, waiting = {start}, deque([start])
        while waiting:
            row, column = waiting.popleft()
            for there in (
                (row + down, column + right) for down in (-1, 0, 1) for right in (-1, 0, 1)
            ):
                if (
                    0 <= there[0] < rows and 0 <= there[1] < columns and there not in seen
                    and level[there] <= level[row, column]
                ):  # fmt: skip
                    seen.add(there)
                    waiting.append(there)
        above[start] = z[start] - min(z[cell] for cell in seen)
    return above
