"""What a standing thing hides from each place: spans of elevation angle, bearing by bearing."""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import ArrayLike, NDArray

from model.land.sky import Circle

NOTHING = -90.0  # [degrees] hidden up to here: nothing is
OPAQUE = (0.0,) * 12


@dataclass(frozen=True)
class Crown:
    """A tree's crown: a dome (the upper half of an ellipsoid) on a stem too thin to count.

    From the side it hides as much as an ellipsoid of the same width and height. It is a dome so
    that a taller crown holds all of a lower one with the same underside.

    Attributes
    ----------
    x, y : float [m]
        Of the stem.
    radius : float [m]
    base, top : float [m]
        Heights of the crown's level underside and of its tip, in the ground's datum.
    transmission : sequence (month,)
        Share of the sun's beam that comes through, 0 to 1, January first.

    """

    x: float
    y: float
    radius: float
    base: float
    top: float
    transmission: ArrayLike = OPAQUE


@dataclass(frozen=True)
class Screen:
    """Something upright from the ground to its top: a wall, a hedge, a building, a wood.

    Attributes
    ----------
    corners : array (corner, 2) [m]
        Its line, or its outline with the first corner again at the end: the latter has an inside,
        from which the whole sky is seen through it. A line or an outline in several parts is as
        many screens.
    top : float or array (face,) [m]
        Height of the top in the ground's datum, the same all along or by face.
    transmission : sequence (month,)
        Share of the sun's beam that comes through, 0 to 1, January first.

    """

    corners: ArrayLike
    top: ArrayLike
    transmission: ArrayLike = OPAQUE


@dataclass(frozen=True)
class Cover:
    """Spans of elevation angle that a thing hides, one for each place and column it touches.

    Attributes
    ----------
    place, column : arrays (span,) of int
        No pair comes twice.
    low, high : arrays (span,) [degrees]

    """

    place: NDArray[np.intp]
    column: NDArray[np.intp]
    low: NDArray[np.float64]
    high: NDArray[np.float64]


def crown_cover(
    crown: Crown, eyes: NDArray[np.float64], circle: Circle, used: NDArray[np.bool_]
) -> Cover:
    """What a crown hides, at the bearings of a circle's used columns (column,).

    `eyes` (place, 3) [m]: x, y and height in the ground's datum. A place within the crown has the
    whole sky hidden.
    """
    east, north = crown.x - eyes[:, 0], crown.y - eyes[:, 1]
    rise = crown.base - eyes[:, 2]
    away = np.hypot(east, north)
    half = np.full(len(eyes), 180.0)
    outside = away > crown.radius
    half[outside] = np.degrees(np.arcsin(crown.radius / away[outside]))
    bearing = np.degrees(np.arctan2(east, north))
    half[crown.top <= eyes[:, 2]] = -1  # wholly below the eye
    place, column, aside = circle.within(bearing, half)
    seen = used[column]
    place, column, aside = place[seen], column[seen], aside[seen]
    low, high = _dome_span(crown, away[place], rise[place], np.radians(aside))
    met = high > low
    return Cover(place[met], column[met], low[met], high[met])


def _dome_span(
    crown: Crown,
    away: NDArray[np.float64],
    rise: NDArray[np.float64],
    aside: NDArray[np.float64],
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Elevation of a dome's lower and upper edge (span,) [degrees].

    Its underside is `away` and `rise` [m] from the eye, `aside` [radians] off the upright plane,
    which cuts the dome in half an ellipse with half axes R and B, its middle at (a, h). A tangent
    of slope m solves (h - m a)^2 = B^2 + m^2 R^2, and a^2 - R^2 is the same in every plane. From
    below, the underside's far end is lowest.
    """
    along = away * np.cos(aside)
    cut = np.maximum(1 - (away * np.sin(aside) / crown.radius) ** 2, 0)
    level, upright = cut * crown.radius**2, cut * (crown.top - crown.base) ** 2
    beyond = away**2 - crown.radius**2
    beyond = np.where(beyond == 0, -1e-12, beyond)  # a stem just a radius away stands over the eye
    middle = along * rise
    root = np.sqrt(np.maximum(middle**2 - beyond * (rise**2 - upright), 0))
    with np.errstate(all="ignore"):  # two forms of one root, each where it is exact
        slope = np.where(
            middle < 0, (rise**2 - upright) / (middle - root), (middle + root) / beyond
        )
    edge = np.degrees(np.arctan(slope))
    below = rise > 0
    within = upright * along**2 + level * rise**2 <= level * upright
    covered = (beyond <= 0) & (below | within)
    far_end = np.degrees(np.arctan2(rise, along + np.sqrt(level)))
    return np.where(below, far_end, NOTHING), np.where(covered, 90.0, edge)


def screen_slopes(
    screen: Screen,
    eyes: NDArray[np.float64],
    circle: Circle,
    used: NDArray[np.bool_],
    slopes: NDArray[np.float64],
) -> None:
    """Raise `slopes` (place, column) in place to the slope [1] up to which a screen hides.

    `eyes` (place, 3) [m], `used` (column,) as for `crown_cover`. Inside an outline it is endless.
    """
    corners = np.asarray(screen.corners, dtype=float)
    tops = np.broadcast_to(np.asarray(screen.top, dtype=float), len(corners) - 1)
    east, north = corners[:, :1] - eyes[:, 0], corners[:, 1:] - eyes[:, 1]
    bearing = np.degrees(np.arctan2(east, north))
    spread = (np.diff(bearing, axis=0) + 180) % 360 - 180
    flat = slopes.reshape(-1)
    for face, (start, end) in enumerate(pairwise(corners)):
        middle = bearing[face] + spread[face] / 2
        half = np.where(eyes[:, 2] < tops[face], np.abs(spread[face]) / 2, -1)
        place, column, _ = circle.within(middle, half)
        seen = used[column]
        place, column = place[seen], column[seen]
        toward = np.radians(circle.bearings)[column]
        run = end - start
        crossing = np.sin(toward) * run[1] - np.cos(toward) * run[0]
        gap = (east[face] * run[1] - north[face] * run[0])[place]
        met = gap * crossing > 0
        place, column = place[met], column[met]
        with np.errstate(over="ignore"):  # an eye against the face
            slope = (tops[face] - eyes[place, 2]) * (crossing[met] / gap[met])
        where = place * circle.count + column
        flat[where] = np.maximum(flat[where], slope)
    if (corners[0] == corners[-1]).all():
        # The top over an eye inside: the faces' tops, each by the angle it takes round the eye.
        over = np.abs(tops @ spread) / 360
        slopes[(np.abs(spread.sum(axis=0)) > 180) & (eyes[:, 2] < over)] = np.inf


def slope_cover(slopes: NDArray[np.float64], lowest: NDArray[np.float64]) -> Cover:
    """Cover of whatever hides all up to a slope (place, column) [1], where it is above the lowest.

    `lowest` (column,) [degrees]: elevation below which nothing is asked of a column.
    """
    place, column = np.nonzero(slopes > np.tan(np.radians(lowest)))
    high = np.degrees(np.arctan(slopes[place, column]))
    return Cover(place, column, np.full(len(high), NOTHING), high)
