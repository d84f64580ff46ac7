"""How high the ground itself stands round each place."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.ndimage import map_coordinates

from model.land.sky import Circle

COARSE = 60  # bearings of the ground's horizon, every 6 degrees: straight between them
GROWTH = 1.12  # each step along a ray is so much longer than the last
LEVEL = np.tan(np.radians(-89.0))  # nothing stands there


@dataclass(frozen=True)
class Relief:
    """A grid of the ground's heights.

    Attributes
    ----------
    z : array (y, x) [m]
        Row 0 the south edge; NaN where not known, which hides nothing.
    x, y : arrays (x,), (y,) [m]
        Evenly spaced cell centres, ascending.

    """

    z: NDArray[np.float64]
    x: NDArray[np.float64]
    y: NDArray[np.float64]


def ground_slopes(
    relief: Relief, eyes: NDArray[np.float64], bearings: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Steepest slope from each eye up to the ground along each bearing (place, bearing) [1].

    The ray is walked in steps that grow with the distance, the first of one cell, to the grid's
    edge; the ground is taken as straight between cells. Below the eye it is negative.

    Parameters
    ----------
    relief : Relief
        Beyond it the land is taken not to rise; call again with a wider, coarser grid and keep
        the greater.
    eyes : array (place, 3) [m]
        x, y and height in the ground's datum.
    bearings : array (bearing,)
        Clockwise from north [degrees].

    """
    cell = float(relief.x[1] - relief.x[0])
    reach = np.hypot(np.ptp(relief.x), np.ptp(relief.y))
    distances = _steps(cell, reach)
    column = (eyes[:, 0] - relief.x[0]) / cell
    row = (eyes[:, 1] - relief.y[0]) / float(relief.y[1] - relief.y[0])
    steepest = np.full((len(eyes), len(bearings)), LEVEL)
    for k, bearing in enumerate(np.radians(bearings)):
        columns = column + distances[:, None] * np.sin(bearing) / cell
        rows = row + distances[:, None] * np.cos(bearing) / cell
        z = map_coordinates(relief.z, [rows, columns], order=1, cval=np.nan)
        slope = (z - eyes[:, 2]) / distances[:, None]
        steepest[:, k] = np.fmax(np.fmax.reduce(slope, axis=0), LEVEL)
    return steepest


def column_slopes(
    relief: Relief,
    eyes: NDArray[np.float64],
    circle: Circle,
    used: NDArray[np.bool_],
    slopes: NDArray[np.float64],
) -> None:
    """Raise `slopes` (place, column) [1] in place to the ground's at a circle's used columns.

    Where there are many columns the ground is looked at every six degrees only: it is smooth.
    `eyes` (place, 3) [m].
    """
    columns = np.flatnonzero(used)
    if len(columns) <= COARSE:
        ground = ground_slopes(relief, eyes, circle.bearings[columns])
    else:
        turn = circle.bearings[columns] % 360 * (COARSE / 360)
        left = turn.astype(int)
        needed, at = np.unique([left, (left + 1) % COARSE], return_inverse=True)
        coarse = ground_slopes(relief, eyes, needed * (360 / COARSE))
        at = at.reshape(2, -1)
        ground = coarse[:, at[0]] * (1 - turn + left) + coarse[:, at[1]] * (turn - left)
    slopes[:, columns] = np.maximum(slopes[:, columns], ground)


def _steps(first: float, reach: float) -> NDArray[np.float64]:
    """Distances along a ray, each step longer than the one before (step,) [m]."""
    count = int(np.ceil(np.log1p(max(reach / first, 1) * (GROWTH - 1)) / np.log(GROWTH)))
    return np.cumsum(np.power(GROWTH, np.arange(count), dtype=float)) * first
