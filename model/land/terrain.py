"""Slope and aspect of a grid of heights. Row 0 is the SOUTH edge: y grows with the row."""

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.ndimage import maximum_filter


def gradient(z: ArrayLike, cell: float) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Rise of the ground per metre to the east and per metre to the north.

    The weighted differences over the eight neighbours smooth the survey's own noise a little.
    At the grid's edge the surface is carried on in a straight line, so that a plane stays exact.

    Parameters
    ----------
    z : array (y, x) [m]
        Heights at cell centres, row 0 the south edge.
    cell : float [m]
        Distance between neighbouring cell centres.

    Returns
    -------
    two arrays (y, x) [1]
        Rise over run eastward and northward; NaN where a neighbour's height is not known.

    References
    ----------
    Horn (1981), Hill shading and the reflectance map, Proc. IEEE 69:14-47.

    """
    around = np.pad(np.asarray(z, dtype=float), 1, mode="reflect", reflect_type="odd")
    eastward = around[:, 2:] - around[:, :-2]
    northward = around[2:] - around[:-2]
    rise_east = (eastward[:-2] + 2 * eastward[1:-1] + eastward[2:]) / (8 * cell)
    rise_north = (northward[:, :-2] + 2 * northward[:, 1:-1] + northward[:, 2:]) / (8 * cell)
    return rise_east, rise_north


def slope(z: ArrayLike, cell: float) -> NDArray[np.float64]:
    """Steepest rise over run of the ground, array (y, x) [1]; 0.1 is one metre in ten.

    `z` (y, x) [m] has row 0 at the south; `cell` [m]. Source: Horn (1981), as `gradient`.

    >>> slope([[0, 1, 2], [0, 1, 2], [0, 1, 2]], cell=10)[1, 1].round(3).item()
    0.1
    """
    return np.hypot(*gradient(z, cell))


def aspect(z: ArrayLike, cell: float) -> NDArray[np.float64]:
    """Bearing the ground faces, downhill, array (y, x) [degrees clockwise from north, 0 to 360).

    `z` (y, x) [m] has row 0 at the south; `cell` [m]. Level ground faces nowhere: NaN.
    Source: Horn (1981), as `gradient`.

    >>> aspect([[0, 0, 0], [1, 1, 1], [2, 2, 2]], cell=10)[1, 1].item()  # rises to the north
    180.0
    """
    rise_east, rise_north = gradient(z, cell)
    bearing = np.degrees(np.arctan2(-rise_east, -rise_north)) % 360
    return np.where((rise_east == 0) & (rise_north == 0), np.nan, bearing)


def steepest(slope: ArrayLike, cell: float, radii: ArrayLike) -> NDArray[np.float64]:
    """Steepest slope in the circle round each cell's centre, for each of several radii.

    `slope` (y, x), `cell` [m], `radii` (radius,) [m]; returns (radius, y, x) in the slope's unit.
    Cells whose centre lies in the circle count, the middle one always.
    """
    values = np.asarray(slope, dtype=float)
    return np.stack([_highest(values, radius / cell) for radius in np.asarray(radii, dtype=float)])


def _highest(values: NDArray[np.float64], radius: float) -> NDArray[np.float64]:
    """Highest known value within a radius [cells] of each cell, (y, x)."""
    half = int(radius)
    reach = np.arange(-half, half + 1)
    disc = np.hypot(reach[:, None], reach) <= radius
    known = np.where(np.isnan(values), -np.inf, values)
    highest = maximum_filter(known, footprint=disc, mode="nearest")
    return np.where(np.isnan(values), np.nan, highest)
