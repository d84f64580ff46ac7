"""Walking times over sloping ground, round walls and water. Row 0 is the SOUTH edge."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.sparse import coo_array, csr_array
from scipy.sparse.csgraph import dijkstra

STRAIGHT = ((0, 1), (1, 0), (0, -1), (-1, 0))
DIAGONAL = ((1, 1), (1, -1), (-1, -1), (-1, 1))
KNIGHT = ((1, 2), (2, 1), (2, -1), (1, -2), (-1, -2), (-2, -1), (-2, 1), (-1, 2))


def pace(slope: ArrayLike) -> NDArray[np.float64]:
    """Seconds a walker takes per metre of ground; the slope is signed, uphill positive [s/m].

    Source: Tobler (1993), Three presentations on geographical analysis and modeling, NCGIA
    technical report 93-1: W = 6 exp(-3.5 |S + 0.05|) km/h, fastest on a gentle way down.

    >>> pace(-0.05).round(6).item()  # 6 km/h
    0.6
    """
    return 0.6 * np.exp(3.5 * np.abs(np.asarray(slope, dtype=float) + 0.05))


def walking_time(
    z: ArrayLike,
    cell: float,
    open_ground: ArrayLike,
    start: tuple[int, int],
    pace_factor: ArrayLike = 1.0,
    neighbours: int = 16,
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Quickest walk from one cell to every cell, and from every cell back.

    The way goes from cell centre to cell centre in 8 or 16 directions; a walk between those
    directions comes out too long by at most 8 % (8 directions) or 3 % (16). A step may pass a
    closed cell's corner but never between two closed cells that touch at their corners, so that
    a wall drawn as a line of cells has no holes.

    Parameters
    ----------
    z : array (y, x) [m]
        Heights at cell centres, row 0 the south edge. A cell of unknown height (NaN) is closed.
    cell : float [m]
        Distance between neighbouring cell centres.
    open_ground : array (y, x) of bool
        Where a person can walk; gates and bridges are open.
    start : (row, column)
        The hub's cell; it must be open.
    pace_factor : float or array (y, x) [1]
        How much slower than on a good path: 1 on a path, 1 / 0.6 off it (Tobler 1993).
    neighbours : 8 or 16
        Directions a step may take.

    Returns
    -------
    out, back : arrays (y, x) [s]
        From the start and to it; infinite where no way leads.

    Raises
    ------
    ValueError
        When the start lies on closed ground.

    References
    ----------
    Tobler (1993), NCGIA technical report 93-1. Dijkstra (1959), Numerische Mathematik 1:269-271.

    """
    heights = np.asarray(z, dtype=float)
    passable = np.asarray(open_ground, dtype=bool) & np.isfinite(heights)
    if not passable[start]:
        nearest = nearest_open(passable, start)
        raise ValueError(f"start must be on open ground, got cell {start}; nearest is {nearest}")
    factor = np.broadcast_to(np.asarray(pace_factor, dtype=float), heights.shape)
    steps = _steps(heights, cell, passable, factor, neighbours)
    origin = np.ravel_multi_index([[start[0]], [start[1]]], heights.shape)
    out = dijkstra(steps, indices=origin).reshape(heights.shape)
    back = dijkstra(steps.T.tocsr(), indices=origin).reshape(heights.shape)
    return out, back


def nearest_open(open_ground: ArrayLike, cell: tuple[int, int]) -> tuple[int, int]:
    """Open cell nearest to a cell, as (row, column): the doorstep of a house drawn as closed.

    `open_ground` is (y, x) of bool, row 0 the south edge. Of equally near cells the first in row
    order is taken. With no open cell at all a ValueError is raised.
    """
    rows, columns = np.nonzero(np.asarray(open_ground, dtype=bool))
    if not len(rows):
        raise ValueError("open ground must hold at least one open cell, got none")
    nearest = int(np.argmin((rows - cell[0]) ** 2 + (columns - cell[1]) ** 2))
    return int(rows[nearest]), int(columns[nearest])


def _steps(
    z: NDArray[np.float64],
    cell: float,
    passable: NDArray[np.bool_],
    factor: NDArray[np.float64],
    neighbours: int,
) -> csr_array[np.float64]:
    """Directed graph (cell, cell) of the seconds each possible step takes."""
    number = np.arange(z.size).reshape(z.shape)
    starts, ends, seconds = [], [], []
    for move in STRAIGHT + DIAGONAL + (KNIGHT if neighbours == 16 else ()):
        allowed = passable & _moved(passable, move, False) & _unhindered(passable, move)
        time = _step_time(z, factor, move, cell)
        starts.append(number[allowed])
        ends.append(_moved(number, move, 0)[allowed])
        seconds.append(time[allowed])
    edges = (np.concatenate(starts), np.concatenate(ends))
    return coo_array((np.concatenate(seconds), edges), shape=(z.size, z.size)).tocsr()


def _moved(field: NDArray, move: tuple[int, int], beyond: float) -> NDArray:
    """Value of the field (y, x) one move away from each cell; `beyond` outside the grid."""
    padded = np.pad(field, 2, constant_values=beyond)
    rows, columns = field.shape
    return padded[2 + move[0] : 2 + move[0] + rows, 2 + move[1] : 2 + move[1] + columns]


def _between(move: tuple[int, int]) -> tuple[tuple[int, int], tuple[int, int]]:
    """Moves to the two cells that a slanting step passes between (diagonal) or over (knight)."""
    row, column = move
    if abs(row) == abs(column):
        return (row, 0), (0, column)
    if abs(column) == 2:
        return (0, column // 2), (row, column // 2)
    return (row // 2, 0), (row // 2, column)


def _unhindered(passable: NDArray[np.bool_], move: tuple[int, int]) -> NDArray[np.bool_]:
    """Where the cells a step passes let it through, bool (y, x)."""
    if move in STRAIGHT:
        return np.ones_like(passable)
    one, other = (_moved(passable, way, False) for way in _between(move))
    return one | other if move in DIAGONAL else one & other


def _step_time(
    z: NDArray[np.float64], factor: NDArray[np.float64], move: tuple[int, int], cell: float
) -> NDArray[np.float64]:
    """Seconds a step takes from each cell (y, x); a knight's step counts the ground half-way."""
    length = cell * float(np.hypot(*move))
    z_there, factor_there = _moved(z, move, np.nan), _moved(factor, move, np.nan)
    if move not in KNIGHT:
        return length * pace((z_there - z) / length) * (factor + factor_there) / 2
    one, other = _between(move)
    z_middle = (_moved(z, one, np.nan) + _moved(z, other, np.nan)) / 2
    factor_middle = (_moved(factor, one, np.nan) + _moved(factor, other, np.nan)) / 2
    first = pace((z_middle - z) / (length / 2)) * (factor + factor_middle) / 2
    second = pace((z_there - z_middle) / (length / 2)) * (factor_middle + factor_there) / 2
    return (first + second) * length / 2
