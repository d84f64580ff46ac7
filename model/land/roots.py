"""Feeding roots of neighbouring trees: how far they reach and how hard they compete."""

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.fft import irfft2, next_fast_len, rfft2

DECAY = 1.5  # exponent of the decline beyond the crown: model choice, common practice, no source
FINENESS = 9  # points a cell's side is split into where a circle cuts it; odd keeps the centre


def reach(height: ArrayLike, reach_per_height: ArrayLike) -> NDArray[np.float64]:
    """Distance from the trunk to which feeding roots run, broadcast shape [m].

    `height` [m] is the tree's; `reach_per_height` [1] is 1.25 for wide and shallow rooters, 0.75
    for moderate and 0.5 for modest ones. Source of the ratios: NHBC Standards, chapter 4.2,
    building near trees (zones of influence by water demand).

    >>> reach(20, 1.25).item()
    25.0
    """
    return np.asarray(height, dtype=float) * np.asarray(reach_per_height, dtype=float)


def influence(
    distance: ArrayLike, crown_radius: ArrayLike, reach: ArrayLike, strength: ArrayLike
) -> NDArray[np.float64]:
    """Competition of one tree's roots at a distance, broadcast shape [1], 0 to 1.

    Full strength under the crown, then falling along a curve to nothing at the reach:
    strength * (1 - (d - crown) / (reach - crown)) ** 1.5. Where roots reach less far than the
    crown, they hold their strength up to the reach.

    `distance`, `crown_radius` and `reach` [m], `strength` [1] at the trunk, 0 to 1.
    Source: the form is a model choice (common practice, no source).

    >>> influence([0, 5, 15, 25], crown_radius=5, reach=25, strength=0.8).round(3).tolist()
    [0.8, 0.8, 0.283, 0.0]
    """
    away = np.asarray(distance, dtype=float)
    limit = np.asarray(reach, dtype=float)
    full = np.minimum(np.asarray(crown_radius, dtype=float), limit)
    beyond = (away - full) / np.where(limit > full, limit - full, 1.0)
    falling = np.clip(1 - np.maximum(beyond, 0), 0, 1) ** DECAY
    return np.asarray(strength, dtype=float) * np.where(away > limit, 0.0, falling)


def combined(influences: ArrayLike) -> NDArray[np.float64]:
    """Competition of all trees together: their sum over the first axis, at most 1 [1].

    Source: model choice (common practice, no source).

    >>> combined([[0.8, 0.2], [0.5, 0.1]]).round(3).tolist()
    [1.0, 0.3]
    """
    return np.minimum(np.asarray(influences, dtype=float).sum(axis=0), 1.0)


def disc_mean(field: ArrayLike, cell: float, radii: ArrayLike) -> NDArray[np.float64]:
    """Mean of a field over the circle round each cell's centre, for each of several radii.

    Cells that the circle cuts count with the share of them inside. Cells that are not known, and
    everything beyond the grid, are left out of the mean.

    Parameters
    ----------
    field : array (y, x)
        Any quantity, row 0 the south edge; NaN where not known.
    cell : float [m]
        Distance between neighbouring cell centres.
    radii : array (radius,) [m]
        A radius of 0 gives the cell's own value.

    Returns
    -------
    array (radius, y, x) [unit of the field]
        NaN where the circle's centre is not known.

    """
    values = np.asarray(field, dtype=float)
    known = np.isfinite(values)
    if not known.any():
        return np.full((np.size(radii), *values.shape), np.nan)
    discs = [_disc(radius / cell) for radius in np.atleast_1d(np.asarray(radii, dtype=float))]
    widest = max(len(disc) for disc in discs)
    room = (max(length + widest // 2, widest) for length in values.shape)
    shape = tuple(next_fast_len(length, real=True) for length in room)
    spectra = rfft2(np.stack([np.where(known, values, 0.0), known.astype(float)]), shape)
    means = np.stack([_weighted_mean(spectra, disc, shape, values.shape) for disc in discs])
    # The transform's rounding must not carry a mean past the values it is made of.
    bounded = np.clip(means, values[known].min(), values[known].max())
    return np.where(known, bounded, np.nan)


def _disc(radius: float) -> NDArray[np.float64]:
    """Share of each cell inside a circle about the middle cell's centre, square array [1]."""
    half = int(np.ceil(radius + 0.5))
    points = (np.arange((2 * half + 1) * FINENESS) + 0.5) / FINENESS - half - 0.5
    inside = np.hypot(points[:, None], points) <= max(radius, 1e-9)
    return inside.reshape(2 * half + 1, FINENESS, -1, FINENESS).mean(axis=(1, 3))


def _weighted_mean(
    spectra: NDArray[np.complex128],
    disc: NDArray[np.float64],
    shape: tuple[int, ...],
    cut: tuple[int, ...],
) -> NDArray[np.float64]:
    """Sum of known values over sum of their weights (y, x), both by the convolution theorem."""
    weights = np.zeros(shape)
    weights[: len(disc), : len(disc)] = disc
    half = len(disc) // 2
    centred = np.roll(weights, (-half, -half), axis=(0, 1))
    total, weight = irfft2(spectra * rfft2(centred), shape)[:, : cut[0], : cut[1]]
    return total / np.maximum(weight, 1e-9)
