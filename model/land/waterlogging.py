"""How long the root zone stands wet: rain that soil and slope cannot lead away.

What was seen on the ground outranks this: it knows nothing of springs, pans and field drains.
"""

import numpy as np
from numpy.typing import ArrayLike, NDArray

# Share of a topsoil's conductivity that the denser ground below lets through: model choice, no
# source. It makes clay pass half a millimetre a day, loam some seven, sand more than it can rain.
SUBSOIL_SHARE = 0.02
FREE_FALL = 2.0  # [m] above the ground it drains to, where water sinks unhindered: model choice
WET_SHARE = 0.5  # of the drainable pores full, from which roots lack air: model choice
DAYS_IN_MONTH = 365 / 12


def drain_rate(
    wetness: ArrayLike, conductivity: ArrayLike, depth: ArrayLike, height: ArrayLike
) -> NDArray[np.float64]:
    """Rain that the ground can lead away for good, broadcast shape [mm/day].

    Down: the subsoil's share of the conductivity, less where the ground lies hardly higher than
    what it drains to. Sideways: what the soil passes down its slope, divided by the land that
    drains through it; in balance, a soil is full where a / tan b reaches its transmissivity
    divided by the rain.

    Parameters
    ----------
    wetness : array [ln m]
        Topographic wetness ln(a / tan b).
    conductivity : array [mm/h]
        Of the full soil.
    depth : array [m]
        Of the soil that water runs through.
    height : array [m]
        Above the lowest ground that this place drains to.

    References
    ----------
    Sideways: O'Loughlin (1986), Prediction of surface saturation zones in natural catchments by
    topographic analysis, Water Resources Research 22:794-804. Down: model choice, no source.

    """
    daily = 24 * np.asarray(conductivity, dtype=float)
    sinking = SUBSOIL_SHARE * daily * np.clip(np.asarray(height, dtype=float) / FREE_FALL, 0, 1)
    return sinking + daily * np.asarray(depth, dtype=float) * np.exp(-np.asarray(wetness))


def wet_months(
    surplus: ArrayLike, rate: ArrayLike, drainable: ArrayLike, drying: ArrayLike = 0.0
) -> NDArray[np.float64]:
    """Months a year in which the root zone stands wet, mean over the years, (place,) [months].

    What falls beyond field capacity fills the drainable pores, and the ground empties them at its
    rate; more than they hold runs off. A day is wet while more than half of them are full. The
    years follow one another.

    Parameters
    ----------
    surplus : array (year, day) [mm/day]
        Rain that the soil could not hold, from the balance of the root zone.
    rate : array (place,) [mm/day]
        That the ground leads away.
    drying : array (year, day) [mm/day]
        What plants would use beyond the day's rain: they take it from standing water first.
    drainable : array (place,) or float [mm]
        Pores of the root zone that empty by themselves.

    Returns
    -------
    array (place,)
        NaN where the rate is not known.

    """
    water = np.asarray(surplus, dtype=float)
    leaving, room = np.broadcast_arrays(
        np.asarray(rate, dtype=float), np.asarray(drainable, dtype=float)
    )
    standing, wet = np.zeros(leaving.shape), np.zeros(leaving.shape)
    taken = np.broadcast_to(np.asarray(drying, dtype=float), water.shape)
    for falling, drawn in zip(water.ravel(), taken.ravel(), strict=True):
        standing = np.clip(standing + falling - leaving - drawn, 0, room)
        wet += standing > WET_SHARE * room
    months = wet / (len(water) * DAYS_IN_MONTH)
    return np.where(np.isnan(leaving + room), np.nan, months)
