"""What already stands between an eye and any place it looks at: ground, trees and walls."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.ndimage import map_coordinates

from model.land.window import Window, elevation_angle, half_width, offset_and_distance

RAY = 0.25  # [degrees] greatest angle between two lines of sight: 0.65 m apart at 150 m
STEP = 0.5  # [m] along a ray
NEAREST = 1.0  # [m] what is nearer is what the eye looks out of, and hides nothing
NOTHING = -90.0  # [degrees] the angle up to which nothing hides anything


@dataclass(frozen=True)
class Skyline:
    """Angle up to which each direction is hidden from the eye, by distance.

    Attributes
    ----------
    width : float [degrees]
        Of the window, which is cut into upright slices of equal width.
    hidden_up_to : array (slice, step) [degrees]
        Elevation angle of the highest thing not farther than (step + 1) * STEP metres, slices
        from left to right.

    """

    width: float
    hidden_up_to: NDArray[np.float64]

    def before(self, offset: ArrayLike, distance: ArrayLike) -> NDArray[np.float64]:
        """Angle up to which what stands nearer hides a point, broadcast shape [degrees].

        `offset` [degrees] to the right of the window's middle, taken to its edge when outside;
        `distance` [m].
        """
        slices, steps = self.hidden_up_to.shape
        piece = np.floor((np.asarray(offset) / self.width + 0.5) * slices).astype(int)
        step = np.ceil(np.asarray(distance) / STEP).astype(int) - 2
        hidden = self.hidden_up_to[np.clip(piece, 0, slices - 1), np.clip(step, 0, steps - 1)]
        return np.where(step >= 0, hidden, NOTHING)


def skyline(
    window: Window,
    z: ArrayLike,
    x: ArrayLike,
    y: ArrayLike,
    crowns: ArrayLike = (),
    walls: ArrayLike = (),
) -> Skyline:
    """Skyline of a window over ground, standing trees, hedges, walls and buildings.

    Parameters
    ----------
    window : Window
        The eye and what it looks at.
    z : array (y, x) [m]
        Heights of the ground, row 0 the south edge; where not known (NaN) it hides nothing.
    x, y : arrays (x,), (y,) [m]
        Evenly spaced cell centres, ascending.
    crowns : array (tree, 5) [m]
        Standing trees: x, y, crown radius, height of the ground, height of the top (both heights
        in the ground's datum). A tree hides what is behind it from the ground to a round top.
    walls : array (wall, 5) [m]
        Straight upright faces, of walls, hedges, buildings: x and y of one end, x and y of the
        other, height of the top. Leave out the walls of a building the eye is in.

    Returns
    -------
    Skyline
        Nothing nearer than 1 m counts.

    """
    rays = max(int(np.ceil(window.width / RAY)), 1)
    steps = max(int(np.ceil(window.range / STEP)), 1)
    offsets = ((np.arange(rays) + 0.5) / rays - 0.5) * window.width
    angles = _ground_angles(window, offsets, np.arange(1.0, steps + 1) * STEP, (z, x, y))
    for hit_distance, hit_angle in (
        _crown_hits(window, offsets, _rows(crowns)),
        _wall_hits(window, offsets, _rows(walls)),
    ):
        step = np.ceil(np.nan_to_num(hit_distance, nan=0.0) / STEP).astype(int) - 1
        thing, ray = np.nonzero((hit_distance >= NEAREST) & (step < steps))
        np.maximum.at(angles, (ray, step[thing, ray]), hit_angle[thing, ray])
    return Skyline(window.width, np.maximum.accumulate(angles, axis=1))


def _rows(things: ArrayLike) -> NDArray[np.float64]:
    """Table of things as (thing, 5), also when there are none."""
    return np.asarray(things, dtype=float).reshape(-1, 5)


def _ground_angles(
    window: Window,
    offsets: NDArray[np.float64],
    distances: NDArray[np.float64],
    ground: tuple[ArrayLike, ArrayLike, ArrayLike],
) -> NDArray[np.float64]:
    """Elevation angle of the ground itself, (ray, step) [degrees]."""
    z, x, y = (np.asarray(part, dtype=float) for part in ground)
    bearing = np.radians(window.bearing + offsets)[:, None]
    columns = (window.x + distances * np.sin(bearing) - x[0]) / (x[1] - x[0])
    rows = (window.y + distances * np.cos(bearing) - y[0]) / (y[1] - y[0])
    height = map_coordinates(z, [rows, columns], order=1, cval=np.nan)
    angle = elevation_angle(height - window.eye, distances)
    return np.where(np.isnan(angle) | (distances < NEAREST), NOTHING, angle)


def _crown_hits(
    window: Window, offsets: NDArray[np.float64], crowns: NDArray[np.float64]
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Distance [m] (NaN: missed) and angle [degrees] of each tree on each ray, (tree, ray)."""
    x, y, radius, ground, top = crowns.T[:, :, None]
    offset, distance = offset_and_distance(window, x, y)
    aside = (offsets - offset + 180) % 360 - 180
    edge = half_width(radius, distance)
    met = (np.abs(aside) < edge) & (distance > radius)
    height = ground + (top - ground) * crown_outline(aside, edge)
    hit = np.where(met, distance, np.nan)
    return hit, elevation_angle(height - window.eye, distance)


def crown_outline(aside: NDArray[np.float64], edge: NDArray[np.float64]) -> NDArray[np.float64]:
    """Height of a round crown's outline as a share of its full height, broadcast shape, 0 to 1.

    `aside` is the angle from the crown's middle, `edge` its half width (at most 90) [degrees].
    """
    share = np.sin(np.radians(aside)) / np.maximum(np.sin(np.radians(edge)), 1e-12)
    return np.sqrt(np.clip(1 - share**2, 0, 1))


def _wall_hits(
    window: Window, offsets: NDArray[np.float64], walls: NDArray[np.float64]
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Distance [m] (NaN: missed) and angle [degrees] of each wall on each ray, (wall, ray)."""
    x, y, x_end, y_end, top = walls.T[:, :, None]
    bearing = np.radians(window.bearing + offsets)
    east, north = np.sin(bearing), np.cos(bearing)
    crossing = east * (y_end - y) - north * (x_end - x)
    crossing = np.where(np.abs(crossing) < 1e-12, np.nan, crossing)  # a ray along the wall
    from_eye_x, from_eye_y = x - window.x, y - window.y
    distance = (from_eye_x * (y_end - y) - from_eye_y * (x_end - x)) / crossing
    along = (from_eye_x * north - from_eye_y * east) / crossing
    hit = np.where((along >= 0) & (along <= 1) & (distance > 0), distance, np.nan)
    return hit, elevation_angle(top - window.eye, distance)
