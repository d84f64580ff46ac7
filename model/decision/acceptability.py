"""How often an alternative comes first, second ... when weights and measures are uncertain.

Stochastic multicriteria acceptability analysis: Lahdelma, Hokkanen and Salminen (1998), European
J. Operational Research 106, 137-143; Lahdelma and Salminen (2001), Operations Research 49(3),
444-454 (SMAA-2).

Alternatives that score alike in a draw share the ranks that they take up: two that are first
together are each half a time first and half a time second.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]

LEVEL = 1e-12  # part of a score: differences below it are rounding
_CHUNK = 2**20  # numbers held at once: 8 MB


@dataclass(frozen=True, eq=False)
class Acceptability:
    """How an alternative stands over all draws.

    `rank_shares` (alternative, rank): share of draws in which it takes each rank. `central_weights`
    (alternative, factor): mean of the weights that put it first, NaN if none do. `confidence`
    (alternative,): share of draws of the measures in which it is first at these, 0 if never first.
    """

    rank_shares: Floats
    central_weights: Floats
    confidence: Floats


def rank_acceptability(scores: ArrayLike, level: float = LEVEL) -> Floats:
    """Share of draws in which each alternative takes each rank (alternative, rank), best first.

    `scores` (draw, alternative), NaN where ruled out, which takes no rank: where that is seldom,
    shares add up to the share of draws in which it may stand. `level`: neighbours in a draw's order
    share their ranks when they differ by no more than this part of the score.
    """
    values = np.asarray(scores, dtype=float)
    count, size = values.shape
    shares = np.zeros((size, size))
    for part in _chunks(count, size):
        shares += _rank_counts(values[part], level)
    return shares / count


def acceptability(u: ArrayLike, weights: ArrayLike, level: float = LEVEL) -> Acceptability:
    """Rank shares, central weights and confidence factors over draws of weights and measures.

    `u` (draw or 1, factor, alternative): Box-Cox desirabilities, NaN where ruled out in that draw;
    `weights` (draw, factor). A draw of weights goes with the same draw of measures, if there are
    several. ValueError where the draws do not match.
    """
    cube, w = np.asarray(u, dtype=float), np.asarray(weights, dtype=float)
    if len(cube) not in (1, len(w)):
        raise ValueError(
            f"draws: found {len(cube)} of the measures and {len(w)} of the weights, "
            "expected as many of both, or one of the measures"
        )
    size = cube.shape[2]
    shares, total = np.zeros((size, size)), np.zeros((size, w.shape[1]))
    for part in _chunks(len(w), size):
        scores = _scores(cube if len(cube) == 1 else cube[part], w[part])
        shares += _rank_counts(scores, level)
        total += _first_shares(scores, level).T @ w[part]
    firsts = shares[:, :1]
    central = np.where(firsts > 0, total / np.where(firsts > 0, firsts, 1), np.nan)
    return Acceptability(shares / len(w), central, _confidence(cube, central, level))


def _scores(u: Floats, w: Floats) -> Floats:
    """Weighted sums (draw, alternative); NaN where anything of an alternative is missing."""
    return w @ u[0] if len(u) == 1 else np.matmul(w[:, None, :], u)[:, 0]


def _confidence(u: Floats, central: Floats, level: float) -> Floats:
    """Share of draws of u in which each alternative is first at its own central weights."""
    found = np.zeros(len(central))
    leads = np.flatnonzero(np.isfinite(central).all(axis=1))
    for part in _chunks(len(u), leads.size * u.shape[2]):
        scores = np.matmul(central[leads], u[part])  # (draw, whose weights, alternative)
        firsts = _first_shares(scores, level)
        found[leads] += firsts[:, np.arange(leads.size), leads].sum(axis=0)
    return found / len(u)


def _first_shares(scores: Floats, level: float) -> Floats:
    """Share that each alternative (..., alternative) has in the first rank of each draw."""
    top = np.fmax.reduce(scores, axis=-1)[..., None]
    first = scores >= top - level * np.abs(top)
    return first / np.maximum(first.sum(axis=-1, keepdims=True), 1)


def _rank_counts(scores: Floats, level: float) -> Floats:
    """How many draws give each alternative each rank (alternative, rank), ties in parts."""
    size = scores.shape[1]
    order = np.argsort(-scores, axis=1)  # NaN goes last
    ranked = np.take_along_axis(scores, order, axis=1)
    above, below = ranked[:, :-1], ranked[:, 1:]
    fresh = np.ones(ranked.shape, dtype=bool)
    fresh[:, 1:] = ~(above - below <= level * np.abs(above))
    places = np.arange(size)
    first = np.maximum.accumulate(np.where(fresh, places, 0), axis=1)
    ends = np.ones_like(fresh)
    ends[:, :-1] = fresh[:, 1:]
    last = np.minimum.accumulate(np.where(ends, places, size)[:, ::-1], axis=1)[:, ::-1]
    ranks = np.where(np.isnan(ranked), 0.0, 1.0) / (last - first + 1)
    # Each takes an equal part of every rank from its first to its last: what starts less what ends.
    starts = np.bincount((order * (size + 1) + first).ravel(), ranks.ravel(), size * (size + 1))
    stops = np.bincount((order * (size + 1) + last + 1).ravel(), ranks.ravel(), size * (size + 1))
    change = (starts - stops).reshape(size, size + 1)
    return np.maximum(change.cumsum(axis=1)[:, :size], 0)


def _chunks(count: int, width: int) -> Iterator[slice]:
    """Draws by parts that fit into memory."""
    step = max(1, _CHUNK // max(width, 1))
    return (slice(start, start + step) for start in range(0, count, step))
