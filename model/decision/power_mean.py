"""Weighted power mean: one score from many desirabilities, at any trade-off exponent.

Exponent 1 is the arithmetic mean (strength fully makes up for weakness), 0 the geometric mean, and
the further below 0, the more the weakest value decides. In Box-Cox space the mean is a plain
weighted sum, whatever the exponent; that is what makes scores fast and tipping points exact.

Hardy, Littlewood and Polya (1934), Inequalities, chapter 2; Box and Cox (1964), J. R. Statist.
Soc. B 26(2), 211-252, equation 1.
"""

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.floating]

LOWEST_EXPONENT = -10.0
HIGHEST_EXPONENT = 1.0
GEOMETRIC = 1e-9  # exponents nearer to 0 than this are taken as 0


def box_cox(v: ArrayLike, p: float) -> Floats:
    """(v**p - 1) / p, or log(v) at p = 0: increasing in v, and 0 at v = 1, for every p.

    Keeps single precision single, and does not raise to a power, which takes several times longer.
    """
    values = np.asarray(v)
    if p == 1:
        return values - 1
    with np.errstate(divide="ignore"):
        if p == -1:
            return 1 - 1 / values
        space = np.log(values)
    if abs(p) < GEOMETRIC:
        return space
    space *= p
    space = np.expm1(space)
    space /= p
    return space


def inverse_box_cox(s: ArrayLike, p: float) -> Floats:
    """Value whose Box-Cox transform is s: a weighted sum becomes the score that people read."""
    if abs(p) < GEOMETRIC:
        return np.exp(s)
    with np.errstate(divide="ignore"):
        return np.exp(np.log1p(np.multiply(s, p)) / p)


def weighted_parts(u: ArrayLike, w: ArrayLike) -> Floats:
    """Product of u (factor, ...) and weights w (factor,); 0 where the weight is 0.

    Even where u is missing or infinite, since a factor without weight must not spoil the sum.
    """
    u = np.asarray(u)
    weights = aligned(w, u)
    return weights * np.where(weights > 0, u, 0)


def power_mean(values: ArrayLike, weights: ArrayLike, p: float, axis: int = 0) -> Floats:
    """Weighted power mean of values [0 to 1] along an axis; weights (axis,) sum to 1."""
    u = np.moveaxis(box_cox(values, p), axis, 0)
    return inverse_box_cox(weighted_parts(u, weights).sum(axis=0), p)


def aligned(w: ArrayLike, u: NDArray) -> Floats:
    """Weights w (factor,) with as many axes as u (factor, ...), so that they multiply its first."""
    weights = np.asarray(w, dtype=float)
    return weights.reshape(weights.shape + (1,) * (u.ndim - weights.ndim))
