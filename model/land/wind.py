"""Wind by bearing, and how much of it a place gets: shelter and ridges weighed by the wind rose."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from model.land.roots import disc_mean

BEARINGS = np.arange(0.0, 360.0, 10.0)
# Speed-up by height over the mean of the surroundings, divided by their radius. With it a knoll and
# a ridge (the mean of wind along it and across) come out as in Taylor & Lee (1984), Simple
# guidelines for estimating wind speed variations due to small scale topographic features,
# Climatological Bulletin 18:3-32 (from memory): 1.6 and 2.0 times height over half-length.
SPEED_UP = 5.0
LEAST_EXPOSED, MOST_EXPOSED = 0.6, 1.6  # [1] the guidelines hold for gentle hills only


def wind_rose(
    speed: ArrayLike, direction: ArrayLike, bearings: ArrayLike = BEARINGS
) -> NDArray[np.float64]:
    """Share of the run of wind that comes from each bearing, (bearing,) [1], summing to 1.

    Strong winds count by their speed. Calm and unknown hours are left out; with none at all, all
    bearings share alike.

    Parameters
    ----------
    speed, direction : arrays (hour,) [m/s], [degrees]
        Where the wind comes from, clockwise from north.
    bearings : array (bearing,) [degrees]
        Evenly spaced, ascending from the first.

    """
    blowing, source = np.asarray(speed, dtype=float), np.asarray(direction, dtype=float)
    sectors = np.asarray(bearings, dtype=float)
    known = np.isfinite(blowing) & np.isfinite(source) & (blowing > 0)
    width = 360 / len(sectors)
    sector = np.round((source[known] - sectors[0]) / width).astype(int) % len(sectors)
    run = np.bincount(sector, weights=blowing[known], minlength=len(sectors))
    return run / run.sum() if run.sum() > 0 else np.full(len(sectors), 1 / len(sectors))


def finer_rose(
    sectors: ArrayLike, shares: ArrayLike, bearings: ArrayLike = BEARINGS
) -> NDArray[np.float64]:
    """A rose of few sectors (eight points, say) read at other bearings, (bearing,) [1], sum 1.

    `sectors` [degrees] and their `shares`, in any scale.

    >>> finer_rose([0, 90, 180, 270], [1, 1, 1, 5], [270, 90]).round(3).tolist()
    [0.833, 0.167]
    """
    at, known = (np.asarray(part, dtype=float) for part in (bearings, sectors))
    read = np.interp(at, known, np.asarray(shares, dtype=float), period=360)
    return read / read.sum()


def by_rose(felt: ArrayLike, rose: ArrayLike) -> NDArray[np.float64]:
    """Mean over the wind rose, (bearing, place) with (bearing,) to (place,), same unit."""
    return np.asarray(rose, dtype=float) @ np.asarray(felt, dtype=float)


def ridge_exposure(z: ArrayLike, cell: float, radius: float = 60.0) -> NDArray[np.float64]:
    """Wind of a place against that of level ground, by the lie of the land, (y, x) [1].

    Above 1 on ridges and knolls, below 1 in dips; 1 on any plane. Bearings are not told apart.

    Parameters
    ----------
    z : array (y, x) [m]
        Heights, row 0 the south edge; NaN where not known.
    cell : float [m]
        Distance between neighbouring cell centres.
    radius : float [m]
        Of the surroundings a place is compared with.

    References
    ----------
    Taylor & Lee (1984), Climatological Bulletin 18:3-32, from memory; the reading of the ridge
    from the mean of its surroundings is a model choice.

    """
    heights = np.asarray(z, dtype=float)
    margin = int(np.ceil(radius / cell)) + 1
    # Carried on in a straight line beyond the edge, so that planes stay planes.
    wider = np.pad(heights, margin, mode="reflect", reflect_type="odd")
    around = disc_mean(wider, cell, [radius])[0][margin:-margin, margin:-margin]
    speed_up = SPEED_UP * (heights - around) / radius
    return np.clip(1 + speed_up, LEAST_EXPOSED, MOST_EXPOSED)
