"""Lengths, bearings and areas between points on the plan: plain geometry in local metres."""

import math
from collections.abc import Sequence

Place = tuple[float, float]


def distance(start: Place, end: Place) -> float:
    """Distance [m] between two points."""
    return math.hypot(end[0] - start[0], end[1] - start[1])


def bearing(start: Place, end: Place) -> float:
    """Bearing [degrees clockwise from north, 0 to 360) of `end` seen from `start`."""
    return math.degrees(math.atan2(end[0] - start[0], end[1] - start[1])) % 360


def towards(start: Place, degrees: float, metres: float) -> Place:
    """The point so many metres [m] off on a bearing [degrees clockwise from north]."""
    turn = math.radians(degrees)
    return start[0] + metres * math.sin(turn), start[1] + metres * math.cos(turn)


def length(points: Sequence[Place], closed: bool = False) -> float:
    """Length [m] along the points, back to the first where the line is closed."""
    ends = [*points[1:], points[0]] if closed and points else points[1:]
    return sum(map(distance, points, ends))


def area(points: Sequence[Place]) -> float:
    """Area [m2] inside an outline, whichever way round it runs.

    By the cross products of its corners' coordinates (the surveyor's formula; Meister 1769,
    Gauss 1795).
    """
    if len(points) < 3:
        return 0.0
    ahead = [*points[1:], points[0]]
    return abs(sum(x * v - u * y for (x, y), (u, v) in zip(points, ahead, strict=True))) / 2


def moved(points: Sequence[Place], east: float, north: float) -> tuple[Place, ...]:
    """The points shifted so many metres east and north."""
    return tuple((x + east, y + north) for x, y in points)
