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
    step = parts.sum(axis=0)
    sum_a, sum_b = (weighted_parts(u, w).sum(axis=0) for u in (u_a, u_b))
    none = step == 0
    gain = _lead(sum_a, sum_b, step, p) / np.where(none, 1, step)
    return parts * np.where(none, inverse_box_cox(sum_b, p) / (1 + p * sum_b), gain)


def contributions(v: ArrayLike, w: ArrayLike, p: float) -> Floats:
    """What each factor brings to a score: its weight, less what it costs; they sum to the score.

    v: desirabilities (factor, ...) above 0; w: weights (factor,). Were every factor perfect, each
    would bring its weight and the score would be 1; what it costs is its share of the difference
    from that. Below p = 1 a weak factor may cost more than its weight, and bring less than nothing.
    """
    return aligned(w, np.asarray(v)) + difference(v, np.ones_like(v), w, p)


def _lead(sum_a: Floats, sum_b: Floats, step: Floats, p: float) -> Floats:
    """Score a less score b, from their weighted sums and the step between these.

    A small step goes through expm1 and log1p, since the plain difference would lose its digits.
    """
    score = inverse_box_cox(sum_b, p)
    relative = step / (1 + p * sum_b)
    small = np.abs(p * relative) < 0.5
    small_step = np.where(small, relative, 0)
    log_ratio = small_step if abs(p) < GEOMETRIC else np.log1p(p * small_step) / p
    return np.where(small, score * np.expm1(log_ratio), inverse_box_cox(sum_a, p) - score)
