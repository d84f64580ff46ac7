"""What each factor brings to a score, so that the parts shown add up to the whole."""

import numpy as np
from numpy.typing import ArrayLike

from .power_mean import GEOMETRIC, Floats, aligned, box_cox, inverse_box_cox, weighted_parts


def difference(v_a: ArrayLike, v_b: ArrayLike, w: ArrayLike, p: float) -> Floats:
    """What each factor adds to the lead of a over b; sums over factors to score(a) - score(b).

    v_a, v_b: desirabilities (factor, ...) above 0; w: weights (factor,). The Aumann-Shapley shares
    (Aumann and Shapley 1974, Values of Non-Atomic Games) of the path from b to a that is straight
    in Box-Cox space: w (u_a - u_b) times the score gained per unit of the weighted sum. At p = 1
    this is w (v_a - v_b).
    """
    u_a, u_b = np.broadcast_arrays(box_cox(v_a, p), box_cox(v_b, p))
    parts = weighted_parts(u_a - u_b, w)
    return parts * _gain(weighted_parts(u_b, w).sum(axis=0), parts.sum(axis=0), p)


def contributions(v: ArrayLike, w: ArrayLike, p: float) -> Floats:
    """What each factor brings to a score: its weight, less what it costs; they sum to the score.

    v: desirabilities (factor, ...) above 0; w: weights (factor,). Were every factor perfect, each
    would bring its weight and the score would be 1; what it costs is its share of the difference
    from that. Below p = 1 a weak factor may cost more than its weight, and bring less than nothing.
    """
    return aligned(w, np.asarray(v)) + difference(v, np.ones_like(v), w, p)


def _gain(start: Floats, step: Floats, p: float) -> Floats:
    """Score gained per unit when the weighted sum goes from start by step.

    Written so that a tiny step loses no digits; for no step it is the derivative of the score.
    """
    score = inverse_box_cox(start, p)
    relative = step / (1 + p * start)
    steady = relative == 0
    grown = np.expm1(_log_score(relative, p)) / np.where(steady, 1, step)
    return score * np.where(steady, 1 / (1 + p * start), grown)


def _log_score(s: Floats, p: float) -> Floats:
    return s if abs(p) < GEOMETRIC else np.log1p(p * s) / p
