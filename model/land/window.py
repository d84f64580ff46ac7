"""A view's window: the eye, and the angles that hold what it looks at."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray


@dataclass(frozen=True)
class Window:
    """Window of a view: an eye and an upright rectangle of angles before it.

    Attributes
    ----------
    x, y : float [m]
        The eye, east and north of the site's origin.
    eye : float [m]
        Height of the eye, in the same datum as the ground (not above the ground).
    bearing : float [degrees]
        Middle of the window, clockwise from north.
    width : float [degrees]
        From its left edge to its right, up to 360.
    low, high : float [degrees]
        Lower and upper edge, above the level of the eye.
    range : float [m]
        Distance beyond which a tree no longer counts.

    """

    x: float
    y: float
    eye: float
    bearing: float
    width: float
    low: float
    high: float
    range: float

    @property
    def area(self) -> float:
        """Size of the window [square degrees]."""
        return self.width * (self.high - self.low)


def offset_and_distance(
    window: Window, x: ArrayLike, y: ArrayLike
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Where points stand as seen from the eye, each in the broadcast shape of `x` and `y` [m].

    The offset is the angle to the right of the window's middle, -180 to 180 [degrees]; the
    distance is level [m].
    """
    east = np.asarray(x, dtype=float) - window.x
    north = np.asarray(y, dtype=float) - window.y
    bearing = np.degrees(np.arctan2(east, north))
    return (bearing - window.bearing + 180) % 360 - 180, np.hypot(east, north)


def in_window(
    window: Window, x: ArrayLike, y: ArrayLike, radius: ArrayLike = 0.0
) -> NDArray[np.bool_]:
    """Whether a crown round each point would stand in the window's sector, broadcast shape.

    `x`, `y` and the crown's `radius` [m]; a radius of 0 asks about the point itself. Heights are
    not considered: a tree in the sector may still stay below the window or behind a hill.
    """
    offset, distance = offset_and_distance(window, x, y)
    inside_sector = np.abs(offset) - half_width(radius, distance) <= window.width / 2
    return inside_sector & (distance <= window.range)


def half_width(radius: ArrayLike, distance: ArrayLike) -> NDArray[np.float64]:
    """Angle from the middle to the edge of a circle seen from outside, broadcast shape [degrees].

    `radius` and `distance` to the centre [m]; 180 when the eye stands inside the circle.

    >>> half_width(5, [10, 5, 1]).round(6).tolist()
    [30.0, 90.0, 180.0]
    """
    near, away = np.asarray(radius, dtype=float), np.asarray(distance, dtype=float)
    outside = away >= near
    ratio = np.divide(near, away, out=np.ones(np.broadcast(near, away).shape), where=away > 0)
    return np.where(outside & (away > 0), np.degrees(np.arcsin(np.minimum(ratio, 1))), 180.0)


def elevation_angle(rise: ArrayLike, distance: ArrayLike) -> NDArray[np.float64]:
    """Angle above the level of the eye, broadcast shape [degrees].

    `rise` above the eye and level `distance` [m]. The earth's curve is left out: it drops a
    point 150 m away by less than 2 mm.
    """
    return np.degrees(np.arctan2(rise, distance))
