"""Where water gathers on the surface: flow over a grid of heights and topographic wetness.

Row 0 is the SOUTH edge. Land beyond the grid sends no water in, so that wetness is too low where
a slope comes down from outside the survey.
"""

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.sparse import coo_array, eye_array
from scipy.sparse.linalg import spsolve_triangular

from model.land.levels import overflow_level

# Moves to the eight neighbours as (rows, columns), straight ones first.
MOVES = ((1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (1, -1), (-1, 1), (-1, -1))
# Share of a cell's side that a neighbour takes water through, Quinn et al. (1991), figure 2.
STRAIGHT_CONTOUR, DIAGONAL_CONTOUR = 0.5, 0.354
TRICKLE = 1e-5  # [m] fall from cell to cell that leads water out of a filled pit: numerical
GENTLEST = 0.001  # rise over run below which a slope counts as this: model choice


def topographic_wetness(
    z: ArrayLike, slope: ArrayLike, cell: float, *, single: bool = False
) -> NDArray[np.float64]:
    """Topographic wetness ln(a / tan b): high where much land drains to and little drains away.

    Pits are filled until they run over. Level ground counts as falling one in a thousand.

    Parameters
    ----------
    z : array (y, x) [m]
        Heights, row 0 the south edge; NaN where not known.
    slope : array (y, x) [1]
        Rise over run of the same ground.
    cell : float [m]
        Distance between neighbouring cell centres.
    single : bool
        True sends all of a cell's water down the steepest way, False shares it among all lower
        neighbours.

    Returns
    -------
    array (y, x) [ln m]
        NaN where the height is not known.

    References
    ----------
    Beven & Kirkby (1979), A physically based, variable contributing area model of basin
    hydrology, Hydrological Sciences Bulletin 24:43-69.

    """
    contour = contributing_area(z, cell, single=single) / cell
    fall = np.where(np.isnan(slope), 0, np.asarray(slope, dtype=float))
    return np.log(contour) - np.log(np.maximum(fall, GENTLEST))


def contributing_area(z: ArrayLike, cell: float, *, single: bool = False) -> NDArray[np.float64]:
    """Land that drains through each cell, its own included, array (y, x) [m2].

    `z` and `cell` as in `topographic_wetness`. Water shared among several lower neighbours goes
    by the fall to each times the share of the side it crosses. At the edge of the known ground it
    leaves the grid.

    Sources: Quinn, Beven, Chevallier & Planchon (1991), The prediction of hillslope flow paths,
    Hydrological Processes 5:59-79, for several ways; O'Callaghan & Mark (1984), Computer Vision,
    Graphics, and Image Processing 28:323-344, for one.
    """
    heights = np.asarray(z, dtype=float)
    known = np.isfinite(heights)
    level = without_pits(heights, TRICKLE)
    shares = _shares(level, cell, single=single)
    number = np.arange(level.size).reshape(level.shape)
    # From the highest cell to the lowest, each is fed by cells before it alone.
    order = np.argsort(-np.where(known, level, -np.inf).ravel(), kind="stable")
    rank = np.empty(level.size, dtype=int)
    rank[order] = np.arange(level.size)
    starts, ends, amounts = [], [], []
    for move, share in zip(MOVES, shares, strict=True):
        sending = share > 0
        starts.append(rank[number[sending]])
        ends.append(rank[_moved(number, move, 0)[sending].astype(int)])
        amounts.append(share[sending])
    places = tuple(np.concatenate(at).astype(np.int32) for at in (ends, starts))  # SuperLU
    passed = coo_array((np.concatenate(amounts), places), shape=(level.size, level.size))
    system = (eye_array(level.size) - passed).tocsr()
    own = np.full(level.size, cell**2)
    area = spsolve_triangular(system, own, lower=True, unit_diagonal=True)
    return np.where(known, area[rank].reshape(level.shape), np.nan)


def without_pits(z: ArrayLike, fall: float = 0.0) -> NDArray[np.float64]:
    """Heights with every hollow filled to where it runs over, array (y, x) [m].

    Whatever is poured on can then leave over the edge of the known ground. `z` (y, x) [m]; `fall`
    [m] is the least drop from cell to cell on the way out, 0 for a level filling.

    Source: Barnes, Lehman & Mulla (2014), Priority-flood: an optimal depression-filling and
    watershed-labeling algorithm for digital elevation models, Computers & Geosciences 62:117-127;
    the same level by sweeps, `levels`.
    """
    return overflow_level(z, fall, aslant=True)


def _shares(z: NDArray[np.float64], cell: float, *, single: bool) -> NDArray[np.float64]:
    """Share of each cell's water that goes each of the eight ways, (move, y, x) [1]."""
    weights = []
    for move in MOVES:
        straight = 0 in move
        drop = z - _moved(z, move, np.nan)
        tangent = np.where(drop > 0, drop, 0) / (cell * np.hypot(*move))
        contour = STRAIGHT_CONTOUR if straight else DIAGONAL_CONTOUR
        weights.append(tangent if single else tangent * contour)
    stack = np.stack(weights)
    if single:
        steepest = np.argmax(stack, axis=0) == np.arange(len(MOVES))[:, None, None]
        return (steepest & (stack > 0)).astype(float)
    total = stack.sum(axis=0)
    return np.divide(stack, total, out=np.zeros_like(stack), where=total > 0)


def _moved(field: NDArray, move: tuple[int, int], beyond: float) -> NDArray:
    """Value of the field (y, x) one move away from each cell; `beyond` outside the grid."""
    padded = np.pad(field.astype(float), 1, constant_values=beyond)
    rows, columns = field.shape
    return padded[1 + move[0] : 1 + move[0] + rows, 1 + move[1] : 1 + move[1] + columns]
