"""The side elevation: what an eye sees as flat shapes in degrees, the farthest first.

Angles are drawn as they are seen, to the right of the middle and above the level of the eye, so
that what is twice as far away stands half as high.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import shapely
from scipy.ndimage import map_coordinates

from model.ground.obstacles import described
from model.ground.sun import CLEAR_STEM
from model.growth.eyes import Eye, offset_of
from model.growth.stand import Crowns, Stand
from model.land.skyline import crown_outline
from model.land.window import elevation_angle, half_width
from model.study import Study

RAY = 0.5  # [degrees] between lines of sight
NEAREST = 1.0  # [m] what is nearer is what the eye looks out of
LOWEST = -60.0  # [degrees] to which the ground is drawn
BANDS = (3.0, 6.0, 12.0, 20.0, 35.0, 60.0, 100.0, 200.0)  # [m] how far each strip of ground goes
UPRIGHT = ("building", "wall", "hedge", "woodland")
INDOORS = 0.5  # [m] an eye this near a building's face looks out of it
PERSON = 1.7  # [m]
ROUND = np.linspace(-1, 1, 25)  # across a crown


@dataclass(frozen=True)
class Shape:
    """One thing as the eye sees it: corners right of the middle and above the level [degrees].

    `kind` is ground, a feature's kind, neighbour, stem, crown or person; `tree` its number in the
    stand or -1; `top` the angle of its tip [degrees] and `distance` [m] from the eye.
    """

    kind: str
    label: str
    distance: float
    across: np.ndarray
    up: np.ndarray
    tree: int = -1

    @property
    def top(self) -> float:
        """Angle of its highest point [degrees]."""
        return float(self.up.max())


def still_shapes(study: Study, eye: Eye) -> tuple[Shape, ...]:
    """What does not grow: strips of ground, buildings, walls, hedges and woods."""
    rays = np.arange(-eye.width / 2, eye.width / 2 + RAY / 2, RAY)
    found = list(_ground(study, eye, rays))
    own = shapely.Point(eye.x, eye.y).buffer(INDOORS)
    for feature in study.site.of_kind(*UPRIGHT):
        if feature.kind == "building" and feature.geometry.intersects(own):
            continue
        line = feature.geometry
        corners = shapely.get_coordinates(shapely.boundary(line) if line.area else line)
        feet = study.ground.surface(*corners.T)
        found += face_shapes(
            eye, rays, (corners, feet, feature.number("height_m")), feature.kind, described(feature)
        )
    return tuple(found)


def tree_shapes(stand: Stand, crowns: Crowns, eye: Eye) -> tuple[Shape, ...]:
    """Stems and crowns of all single trees in one year."""
    offset, distance = offset_of(eye, stand.x, stand.y)
    found = []
    for tree in range(len(stand.labels)):
        radius, away = crowns.spread[tree] / 2, float(distance[tree])
        if away <= max(radius, NEAREST):
            continue  # the eye stands under it
        edge = float(half_width(radius, away))
        if abs(offset[tree]) - edge > eye.width / 2:
            continue
        foot = stand.ground[tree] - eye.height
        height = crowns.height[tree]
        kind = "crown" if tree < stand.new else "neighbour"
        parts = _crown(float(offset[tree]), edge, foot, height, away)
        stem = _stem(float(offset[tree]), foot, height, away)
        label = stand.labels[tree]
        found.append(Shape("stem", label, away + 0.01, *stem, tree))
        found.append(Shape(kind, label, away, *parts, tree))
    return tuple(found)


def person_shape(eye: Eye, beside: Shape | None, study: Study, stand: Stand) -> Shape | None:
    """A person of 1.7 m who stands beside a tree, at its distance; None without a tree."""
    if beside is None:
        return None
    edge = beside.across.max() - beside.across.min()
    turn = float(beside.across.max()) + max(0.3 * edge, 0.5)
    away = beside.distance
    toward = np.radians(eye.bearing + turn)
    at = np.array([eye.x + away * np.sin(toward)]), np.array([eye.y + away * np.cos(toward)])
    foot = float(study.ground.surface(*at)[0])
    if not np.isfinite(foot):
        foot = float(stand.ground[beside.tree])
    return _person(turn, foot - eye.height, away)


def in_order(shapes: tuple[Shape, ...]) -> tuple[Shape, ...]:
    """Shapes from the farthest to the nearest, as they are painted."""
    return tuple(sorted(shapes, key=lambda shape: -shape.distance))


def _crown(
    offset: float, edge: float, foot: float, height: float, away: float
) -> tuple[np.ndarray, np.ndarray]:
    """A dome seen face on at the distance of its stem."""
    aside = ROUND * edge
    base = foot + CLEAR_STEM * height
    tops = base + (foot + height - base) * crown_outline(aside, np.full(ROUND.size, edge))
    across = offset + np.concatenate([aside, aside[[-1, 0]]])
    up = np.concatenate([elevation_angle(tops, away), elevation_angle([base, base], away)])
    return across, up


def _stem(offset: float, foot: float, height: float, away: float) -> tuple[np.ndarray, np.ndarray]:
    half = np.degrees(np.arctan2(0.02 * height, away))  # a trunk about a twenty-fifth of its height
    top = foot + (CLEAR_STEM + 0.05) * height
    across = offset + np.array([-half, half, half, -half])
    return across, elevation_angle(np.array([foot, foot, top, top]), away)


def _person(offset: float, foot: float, away: float) -> Shape:
    """An outline of a standing person, by shares of the height."""
    side = np.array([0.05, 0.07, 0.09, 0.13, 0.13, 0.05, 0.07, 0.07, 0.04])
    rise = np.array([0.0, 0.45, 0.5, 0.5, 0.8, 0.84, 0.88, 0.97, 1.0])
    turn = np.degrees(np.arctan2(PERSON * side, away))
    across = offset + np.concatenate([turn, -turn[::-1]])
    up = elevation_angle(foot + PERSON * np.concatenate([rise, rise[::-1]]), away)
    return Shape("person", "", away - 0.02, across, up)


def _ground(study: Study, eye: Eye, rays: np.ndarray) -> Iterator[Shape]:
    """Strips of ground, each up to the highest angle of all that is not farther."""
    places, z = study.ground.places, study.ground.relief
    distances = np.arange(NEAREST, BANDS[-1] + 0.5, 0.5)
    toward = np.radians(eye.bearing + rays)[:, None]
    columns = (eye.x + distances * np.sin(toward) - places.columns[0]) / places.cell
    rows = (eye.y + distances * np.cos(toward) - places.rows[0]) / places.cell
    height = map_coordinates(z, [rows, columns], order=1, mode="nearest")
    angle = elevation_angle(height - eye.height, distances)
    angle = np.maximum.accumulate(np.where(np.isnan(angle), LOWEST, angle), axis=1)
    for band in BANDS:
        upper = angle[:, np.searchsorted(distances, band, side="right") - 1]
        yield Shape("ground", "", band, *_outline(rays, np.full(rays.size, LOWEST), upper))


def face_shapes(
    eye: Eye,
    rays: np.ndarray,
    thing: tuple[np.ndarray, np.ndarray, float],
    kind: str,
    label: str,
) -> Iterator[Shape]:
    """Something upright, in one shape for each stretch in which it is seen.

    `thing` is its corners (corner, 2), the ground at each (corner,) and its height, all [m].
    """
    corners, feet, height = thing
    start, run = corners[:-1, :, None], np.diff(corners, axis=0)[:, :, None]
    toward = np.radians(eye.bearing + rays)
    east, north = np.sin(toward), np.cos(toward)
    crossing = east * run[:, 1] - north * run[:, 0]
    crossing = np.where(np.abs(crossing) < 1e-12, np.nan, crossing)  # a ray along the face
    dx, dy = start[:, 0] - eye.x, start[:, 1] - eye.y
    away = (dx * run[:, 1] - dy * run[:, 0]) / crossing
    along = (dx * north - dy * east) / crossing
    met = (along >= 0) & (along <= 1) & (away > NEAREST)
    foot = feet[:-1, None] + along * np.diff(feet)[:, None] - eye.height
    with np.errstate(invalid="ignore"):
        lower = np.where(met, elevation_angle(foot, away), np.inf).min(axis=0)
        upper = np.where(met, elevation_angle(foot + height, away), -np.inf).max(axis=0)
    nearest = np.where(met, away, np.inf).min(axis=0)
    seen = np.flatnonzero(np.isfinite(nearest))
    for stretch in np.split(seen, np.flatnonzero(np.diff(seen) > 1) + 1):
        if stretch.size > 1:
            outline = _outline(rays[stretch], lower[stretch], upper[stretch])
            yield Shape(kind, label, float(nearest[stretch].min()), *outline)


def _outline(
    rays: np.ndarray, lower: np.ndarray, upper: np.ndarray
) -> tuple[np.ndarray, np.ndarray]:
    return np.concatenate([rays, rays[::-1]]), np.concatenate([upper, lower[::-1]])
