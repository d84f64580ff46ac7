"""Points spread evenly over a convex body of any shape, by many random walks side by side.

Each step picks a direction at random and then any point of the chord through it: Smith (1984),
Operations Research 32(6), 1296-1308. Directions are drawn to the body's own shape, so that a flat
body is walked through as fast as a round one: Lovasz and Vempala (2006), SIAM J. Comput. 35(4),
985-1005.
"""

import numpy as np
from numpy.typing import NDArray
from scipy.linalg import null_space
from scipy.optimize import linprog

Floats = NDArray[np.float64]

_WALKS = 256
# Steps in each dimension: to learn the shape (three times), to forget the start, and from one kept
# point to the next. Long enough that the exact volumes in the tests are met; no source.
_LEARNING, _FORGETTING, _APART = 10, 20, 2


def points_within(
    rows: Floats, bounds: Floats, level: Floats, at: Floats, count: int, rng: np.random.Generator
) -> Floats:
    """Even points (count, axis) where rows @ x <= bounds and level @ x = at.

    rows (row, axis), level (row, axis). The body must be bounded and not empty; where it is flat,
    because rows meet from both sides, the points are even within its own dimensions.
    """
    middle, loose = _inside(rows, bounds, level, at)
    basis = null_space(np.vstack([level, rows[~loose]]))
    if basis.shape[1] == 0:
        return np.repeat(middle[None], count, axis=0)
    walls = rows[loose] @ basis
    room = bounds[loose] - rows[loose] @ middle
    return middle + _walked(walls, room, count, rng) @ basis.T


def _inside(
    rows: Floats, bounds: Floats, level: Floats, at: Floats
) -> tuple[Floats, NDArray[np.bool_]]:
    """A point (axis,) off every wall that can be kept off, and which walls (row,) those are.

    One linear programme: Freund, Roundy and Todd (1985), MIT Sloan working paper 1674-85.
    """
    m, n = rows.shape
    cost = np.concatenate([np.zeros(n), -np.ones(m), [0.0]])
    walls = np.hstack([rows, np.eye(m), -bounds[:, None]])
    flat = np.hstack([level, np.zeros((len(level), m)), -at[:, None]])
    limits = [(None, None)] * n + [(0, 1)] * m + [(1, None)]
    found = linprog(cost, walls, np.zeros(m), flat, np.zeros(len(level)), bounds=limits)
    if found.x is None:
        raise ValueError("points within bounds: found no point that keeps them all")
    return found.x[:n] / found.x[-1], found.x[n : n + m] > 0.5


def _walked(walls: Floats, room: Floats, count: int, rng: np.random.Generator) -> Floats:
    """Even points (count, axis) where walls @ y <= room, walked to from 0, which lies inside."""
    size = walls.shape[1]
    at = np.zeros((_WALKS, size))
    near_walls = walls / room[:, None]
    shape = np.linalg.inv(np.linalg.cholesky(near_walls.T @ near_walls)).T
    for _ in range(3):
        at = _steps(at, walls, room, shape, _LEARNING * size, rng)
        shape = np.linalg.cholesky(np.atleast_2d(np.cov(at.T)))
    at = _steps(at, walls, room, shape, _FORGETTING * size, rng)
    kept = [at]
    while len(kept) * _WALKS < count:
        kept.append(_steps(kept[-1], walls, room, shape, _APART * size, rng))
    return np.concatenate(kept)[:count]


def _steps(
    at: Floats,
    walls: Floats,
    room: Floats,
    shape: Floats,
    steps: int,
    rng: np.random.Generator,
) -> Floats:
    """Where the walks (walk, axis) stand after so many steps."""
    here = at.copy()
    left = np.maximum(room - here @ walls.T, 0)
    for _ in range(steps):
        way = rng.standard_normal(here.shape) @ shape.T
        pace = way @ walls.T
        with np.errstate(divide="ignore", invalid="ignore"):
            reach = left / pace
        ahead = np.where(pace > 0, reach, np.inf).min(axis=1)
        behind = np.where(pace < 0, reach, -np.inf).max(axis=1)
        step = (behind + rng.random(len(here)) * (ahead - behind))[:, None]
        here += step * way
        left = np.maximum(left - step * pace, 0)
    return here
