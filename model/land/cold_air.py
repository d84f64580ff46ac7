"""Cold air on calm clear nights: it runs downhill, gathers in hollows and behind barriers.

Row 0 is the SOUTH edge. What lies beyond the survey is not seen: air leaves over its edge.
"""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from model.land.levels import lowest_below, overflow_level
from model.land.temperature import station_to_place
from model.land.wetness import without_pits

# Rise of the dawn temperature with height above a basin's floor [K/m], Hocevar & Martsolf (1971),
# Temperature distribution under radiation frost conditions in a central Pennsylvania valley,
# Agricultural Meteorology 8:371-383: 6.2 K in 100 m.
INVERSION = 0.062
INVERSION_DEPTH = 100.0  # [m] beyond which it grows no warmer: model choice
# Height of a weather station above the ground its own air drains to [m]: model choice, for an
# instrument on open ground neither in a hollow nor on a hill.
STATION_HEIGHT = 10.0
# Cooling of a pool by its depth, and the most of it: model choice. Common practice, no source,
# puts the foot of a slope 1 to 4 K below its middle on clear nights.
POOL_COOLING, COLDEST_POOL = 1.0, 4.0  # [K/m], [K]
# Fall that air needs along a barrier to get round its end [1]: model choice.
AIR_FALL = 0.02


def height_above_drain(z: ArrayLike) -> NDArray[np.float64]:
    """Height of each place above the lowest ground its cold air runs to, array (y, x) [m].

    `z` (y, x) [m], NaN where not known. The air runs down every way that does not rise, through
    hollows once they are full. Going uphill, this height never falls.
    """
    heights = np.asarray(z, dtype=float)
    level = np.where(np.isfinite(heights), without_pits(heights), np.inf)
    lowest = np.where(np.isfinite(heights), heights, np.inf)
    reached = lowest_below(level, lowest)
    return np.where(np.isfinite(heights), heights - reached, np.nan)


def hollow_depth(z: ArrayLike) -> NDArray[np.float64]:
    """Depth of each place below the brim of the hollow it lies in, array (y, x) [m]; 0 outside.

    `z` (y, x) [m], NaN where not known. Going uphill, this depth never grows.
    """
    return without_pits(z) - np.asarray(z, dtype=float)


def dammed_depth(z: ArrayLike, barrier: ArrayLike, cell: float) -> NDArray[np.float64]:
    """Depth of the cold air that barriers hold up above them, array (y, x) [m].

    Air flows over a barrier or round its ends; along a long one it piles up until it falls one in
    fifty. A gap lets it through. Barriers a cell thin must be joined by corners at least.

    Parameters
    ----------
    z : array (y, x) [m]
        Heights of the ground, NaN where not known.
    barrier : array (y, x) [m]
        Height of what stops the air: of a wall its own, of a hedge less by the share of gaps near
        its foot; 0 where there is none.
    cell : float [m]
        Distance between neighbouring cell centres.

    Returns
    -------
    array (y, x) [m]
        What the barriers add; 0 on the barriers themselves.

    """
    heights, standing = np.asarray(z, dtype=float), np.asarray(barrier, dtype=float)
    if not (standing > 0).any():
        return np.where(np.isfinite(heights), 0.0, np.nan)
    # It moves straight, so that barriers drawn corner to corner hold it.
    with_barriers, without = (
        overflow_level(ground, AIR_FALL * cell, aslant=False)
        for ground in (heights + standing, heights)
    )
    added = np.maximum(with_barriers - without, 0)
    return np.where(standing > 0, 0.0, added)


def water_warmth(distance: ArrayLike, width: ArrayLike) -> NDArray[np.float64]:
    """Warming by open water on a frosty night, broadcast shape [K].

    `distance` from its edge and `width` of the water [m]. One kelvin at the edge of water 50 m
    wide or more, less for smaller, and gone within about three widths.
    Source: common practice, no source.

    >>> water_warmth([0, 100], width=50).round(2).tolist()
    [1.0, 0.14]
    """
    wide = np.asarray(width, dtype=float)
    fading = np.exp(-np.maximum(np.asarray(distance, dtype=float), 0) / np.maximum(wide, 0.1))
    return np.clip(wide / 50, 0, 1) * fading


def clear_night_offset(
    height: ArrayLike,
    pool: ArrayLike,
    drain_difference: ArrayLike,
    water: ArrayLike = 0.0,
    station_height: float = STATION_HEIGHT,
) -> NDArray[np.float64]:
    """Warmth of a place against the station at dawn after a calm clear night, broadcast shape [K].

    Parameters
    ----------
    height : array [m]
        Of the place above the ground its air drains to.
    pool : array [m]
        Depth of the cold air that hollows and barriers hold over the place.
    drain_difference : array [m]
        Altitude of the ground this place drains to less that of the ground the station drains to
        (its own altitude less its stand): between the two the usual fall with altitude holds.
    water : array [K]
        Warming by open water.
    station_height : float [m]
        Of the station above the ground that its own air drains to.

    References
    ----------
    Hocevar & Martsolf (1971), Agricultural Meteorology 8:371-383; pools, water and the station's
    own stand are model choices.

    """
    above = np.clip(np.asarray(height, dtype=float), 0, INVERSION_DEPTH)
    warmer = INVERSION * (above - min(station_height, INVERSION_DEPTH))
    colder = np.minimum(POOL_COOLING * np.asarray(pool, dtype=float), COLDEST_POOL)
    return warmer - colder + np.asarray(water) + station_to_place(drain_difference)


def clear_share(tmin: ArrayLike, tmax: ArrayLike) -> NDArray[np.float64]:
    """How calm and clear a night was, by the day's range of temperature, same shape [1], 0 to 1.

    Wind and cloud keep the range under 5 K; from 12 K the air was still and the sky open.
    `tmin`, `tmax` [degrees C]. Source: common practice, no source.

    >>> clear_share([4, 2, -1], [8, 10.5, 14]).tolist()
    [0.0, 0.5, 1.0]
    """
    swing = np.asarray(tmax, dtype=float) - np.asarray(tmin, dtype=float)
    return np.clip((swing - 5) / 7, 0, 1)


def night_minimum(
    tmin: ArrayLike, clear: ArrayLike, clear_offset: ArrayLike, mean_offset: ArrayLike
) -> NDArray[np.float64]:
    """Lowest temperature of each night at a place, broadcast shape [degrees C].

    `tmin` [degrees C] at the station and `clear` [1] how clear each night was; `clear_offset` and
    `mean_offset` [K] of the place against the station on calm clear nights and on others.
    """
    still = np.asarray(clear, dtype=float)
    offset = still * np.asarray(clear_offset) + (1 - still) * np.asarray(mean_offset)
    return np.asarray(tmin, dtype=float) + offset
