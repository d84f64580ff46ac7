"""How much of a view a grown tree would cover, and what the eye can see of a place."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from model.land.skyline import NOTHING, Skyline, crown_outline
from model.land.window import Window, elevation_angle, half_width, in_window, offset_and_distance

# Directions across a crown at which its height is taken: Gauss-Legendre, on -1 to 1. Six give
# a round crown's area within half a per cent.
NODES, NODE_WEIGHTS = np.polynomial.legendre.leggauss(6)


def hidden_below(
    window: Window, skyline: Skyline, x: ArrayLike, y: ArrayLike
) -> NDArray[np.float64]:
    """Height below which anything at a point is out of the eye's sight, broadcast shape [m].

    It is the line of sight over the highest thing on the way, in the ground's datum; minus
    infinity where nothing stands on the way, NaN outside the window's sector.
    """
    offset, distance = offset_and_distance(window, x, y)
    angle = skyline.before(offset, distance)
    line = window.eye + distance * np.tan(np.radians(angle))
    line = np.where(angle <= NOTHING, -np.inf, line)
    return np.where(in_window(window, x, y), line, np.nan)


def share_covered(
    window: Window,
    skyline: Skyline,
    places: tuple[ArrayLike, ArrayLike, ArrayLike],
    height: ArrayLike,
    spread: ArrayLike,
    base: ArrayLike = 0.0,
) -> NDArray[np.float64]:
    """Share of a view's window that a tree standing at each place would fill.

    The crown is a dome on its base, seen face on at the distance of its trunk. What stands nearer
    (ground, trees, walls) hides its part of the crown, and that part covers nothing anew. What
    stands behind is part of the view that would be lost. Beyond the window's range a tree counts
    for nothing. A crown that the eye stands in fills the whole window; one that it stands under
    fills what is above the crown's lower edge.

    Parameters
    ----------
    window, skyline : Window, Skyline
        The view, and what already stands in it.
    places : three arrays (place,) [m]
        x, y and height of the ground at each place.
    height, spread : arrays (option, place), or that broadcast to it [m]
        Height above the ground and crown diameter.
    base : array that broadcasts to (option, place) [m]
        Clear height below the crown, at most `height`; 0 when it is leafy to the ground.

    Returns
    -------
    array (option, place) [1]
        0 to 1; NaN where a size or the ground is not known.

    """
    x, y, ground = (np.asarray(part, dtype=float) for part in places)
    sizes = [np.asarray(size, dtype=float) for size in (height, spread, base)]
    shape = np.broadcast_shapes(*(size.shape for size in sizes), (1, x.size))
    tops, spreads, bases = (np.broadcast_to(size, shape) for size in sizes)
    widest = np.nan_to_num(np.fmax.reduce(spreads, axis=0)) / 2
    near = np.flatnonzero(in_window(window, x, y, widest))
    seen = offset_and_distance(window, x[near], y[near])
    rise = ground[near] - window.eye
    share = np.zeros(shape)
    for option in range(len(share)):
        crown = spreads[option, near] / 2, rise + bases[option, near], rise + tops[option, near]
        share[option, near] = _share(window, skyline, seen, crown)
    return np.where(np.isnan(tops + spreads + bases + ground), np.nan, share)


def _share(
    window: Window,
    skyline: Skyline,
    seen: tuple[NDArray[np.float64], NDArray[np.float64]],
    crown: tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]],
) -> NDArray[np.float64]:
    """Share of the window filled by one crown at each place, (place,).

    `seen` is offset [degrees] and distance [m]; `crown` is radius, and rise of base and top above
    the eye [m].
    """
    offset, distance = seen
    radius, base, top = crown
    edge = half_width(radius, distance)
    left = np.maximum(offset - edge, -window.width / 2)
    right = np.minimum(offset + edge, window.width / 2)
    half = np.maximum(right - left, 0) / 2
    direction = (left + half)[:, None] + half[:, None] * NODES
    outline = crown_outline(direction - offset[:, None], edge[:, None])
    away = distance[:, None]
    upper = elevation_angle(base[:, None] + (top - base)[:, None] * outline, away)
    lower = np.maximum(elevation_angle(base, distance)[:, None], skyline.before(direction, away))
    low, high = window.low, window.high
    visible = np.maximum(np.clip(upper, low, high) - np.clip(lower, low, high), 0)
    share = half * (visible @ NODE_WEIGHTS) / window.area
    return np.where(distance > radius, share, _share_from_under(window, crown))


def _share_from_under(
    window: Window, crown: tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]]
) -> NDArray[np.float64]:
    """Share of the window filled by the crown the eye stands under or in, (place,)."""
    radius, base, top = crown
    under = np.clip(elevation_angle(base, radius), window.low, window.high)
    lower = np.where(base > 0, under, window.low)
    return np.where(top > 0, (window.high - lower) / (window.high - window.low), 0.0)
