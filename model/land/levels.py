"""The level to which water or air must rise, everywhere at once, before it runs off the grid.

Whole rows and columns are swept to and fro until nothing changes: on land a few rounds do, however
large it is, where a queue of single cells takes a hundred times longer.
"""

from collections.abc import Callable

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]
Sweep = Callable[..., None]


def overflow_level(z: ArrayLike, fall: float, *, aslant: bool) -> Floats:
    """Lowest level from which a way that falls leads to the edge, array (y, x) [m].

    Never under the ground; NaN where that is not known, over whose edge everything leaves.

    Parameters
    ----------
    z : array (y, x) [m]
        Heights of the ground, NaN where not known.
    fall : float [m]
        Least drop from a cell to the next on the way.
    aslant : bool
        Whether the way may also lead to the four neighbours at a cell's corners.

    References
    ----------
    Planchon & Darboux (2001), A fast, simple and versatile algorithm to fill the depressions of
    digital elevation models, Catena 46:159-176 (from memory).

    """
    heights = np.asarray(z, dtype=float)
    known = np.isfinite(heights)
    floor = np.where(known, heights, np.inf)
    start = np.where(_amid(known), np.inf, floor)
    level = settled(start, _lowered_by_row(fall, aslant=aslant), floor)
    return np.where(known, level, np.nan)


def lowest_below(level: ArrayLike, z: ArrayLike) -> Floats:
    """Lowest ground on any way from each cell that never rises, array (y, x) [m].

    `level` (y, x) [m] says what rises; `z` (y, x) [m] is the ground, both infinite where unknown.
    """
    return settled(np.array(z, dtype=float), _found_by_row, np.asarray(level, dtype=float))


def settled(values: Floats, sweep: Sweep, given: Floats) -> Floats:
    """Values (y, x) after sweeps to the north, south, east and west until nothing changes.

    `sweep(values, given)` brings each row up to date in place from the row before it.
    """
    while True:
        before = values.copy()
        for turned in (given, np.ascontiguousarray(given.T)):
            sweep(values, turned)
            sweep(values[::-1], turned[::-1])
            values = np.ascontiguousarray(values.T)
        if np.array_equal(before, values):
            return values


def _lowered_by_row(fall: float, *, aslant: bool) -> Sweep:
    """Sweep that lowers each row to what the row before lets run off."""

    def sweep(level: Floats, floor: Floats) -> None:
        for row in range(1, len(level)):
            near = level[row - 1].copy()
            if aslant:
                np.minimum(near[1:], level[row - 1, :-1], out=near[1:])
                np.minimum(near[:-1], level[row - 1, 1:], out=near[:-1])
            np.maximum(near + fall, floor[row], out=near)
            np.minimum(level[row], near, out=level[row])

    return sweep


def _found_by_row(lowest: Floats, level: Floats) -> None:
    """Sweep that takes over the lowest ground found from cells of the row before, if not higher."""
    for row in range(1, len(level)):
        for here, there in _PAIRS:
            lower = np.where(
                level[row - 1, there] <= level[row, here], lowest[row - 1, there], np.inf
            )
            np.minimum(lowest[row, here], lower, out=lowest[row, here])


_PAIRS = (
    (slice(None), slice(None)),
    (slice(1, None), slice(None, -1)),
    (slice(None, -1), slice(1, None)),
)


def _amid(known: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Cells with known ground on all eight sides (y, x)."""
    wide = np.pad(known, 1)
    rows, columns = known.shape
    amid = known.copy()
    for up in range(3):
        for right in range(3):
            amid &= wide[up : up + rows, right : right + columns]
    return amid
