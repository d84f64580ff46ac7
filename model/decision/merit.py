"""Merit: scores of all options at all places, who leads where, and the order of merit."""

from collections.abc import Iterable, Iterator, Sequence
from functools import reduce
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from .power_mean import Floats, box_cox, inverse_box_cox

# Scores nearer than this are one score: finer than anyone should read, coarser than the rounding
# of single precision. Callers who know the survey's own error pass that instead.
MARGIN = 1e-4

_CACHED = 2**18  # scores in single precision: 1 MB


class Leaders(NamedTuple):
    """Who leads at each place.

    option (place,): index of the leading option, -1 where none is allowed and judged;
    score (place,): its score [0 to 1], NaN where none;
    tied (place,): options whose score is within the margin of the leader's, itself included. Where
    this is above 1 the place has no single best option, and `option` names but one of the tied.
    """

    option: NDArray[np.intp]
    score: Floats
    tied: NDArray[np.intp]


def bars(ruled_out: ArrayLike) -> NDArray[np.float32]:
    """Ruled-out options (option, place) as what to add to a value: 0 allowed, NaN ruled out."""
    return np.where(ruled_out, np.float32(np.nan), np.float32(0))


def cube(
    desirabilities: Sequence[NDArray],
    p: float,
    bars: NDArray[np.float32],
    out: NDArray[np.float32] | None = None,
) -> NDArray[np.float32]:
    """Box-Cox space (factor, option, place) of one desirability array for each factor.

    Each is (option, place), either axis 1 long where the factor ignores it: it is transformed
    before it is spread out. bars (option, place): what is ruled out becomes NaN in every factor, so
    that no weighting can average it away, and no later step has to ask. Handing in a cube that is
    no longer wanted as `out` saves new memory.
    """
    if out is None:
        out = np.empty((len(desirabilities), *bars.shape), np.float32)
    for layer, values in zip(out, desirabilities, strict=True):
        np.add(box_cox(np.asarray(values, np.float32), p), bars, out=layer)
    return out


def linear_scores(u: Floats, w: ArrayLike) -> Floats:
    """Weighted sums (...) of a cube u (factor, ...), in Box-Cox space; NaN where ruled out.

    They rank as the displayed scores do. One matrix product over each run of factors that have
    weight: factors of weight 0 are passed over, so that what is not known about them harms nobody.
    """
    weights = np.asarray(w, dtype=u.dtype)
    weighed = np.flatnonzero(weights)
    runs = np.split(weighed, np.flatnonzero(np.diff(weighed) > 1) + 1)
    flat = u.reshape(len(u), -1)
    sums = (weights[run] @ flat[run[0] : run[-1] + 1] for run in runs)
    return reduce(np.add, sums).reshape(u.shape[1:])


def best(scores: Floats) -> tuple[NDArray[np.intp], Floats]:
    """Index (place,) of the highest of linear scores (option, place), and that score (place,).

    Options without a score (NaN: ruled out or not known) never lead; where none is left the index
    is -1 and the score NaN. Of equal scores the first is named: `leaders` tells of ties.
    """
    option, top = _joined(_best(part) for part in _stretches(scores))
    return option, top


def leaders(scores: Floats, p: float, margin: float = MARGIN) -> Leaders:
    """Leading option, its displayed score, and how many are tied with it, at each place.

    scores: linear scores (option, place); margin of displayed score. Only the leader's score leaves
    Box-Cox space, which is why this costs little more than the product.
    """
    return Leaders(*_joined(_leaders(part, p, margin) for part in _stretches(scores)))


def order(scores: Floats, margin: float = MARGIN, axis: int | None = 0) -> NDArray[np.intp]:
    """Order of merit: 1 is best, 0 is ruled out or not known; same shape as the scores.

    scores: displayed (option, place), NaN where ruled out or not known; axis 0 orders the options
    at each place, 1 the places of each option, None all pairs of both. From the top down, all
    within the margin of the first of a rank share it, and the next rank counts them: 1, 1, 3.
    """
    known = np.where(np.isnan(scores), -np.inf, scores)
    lines = known.reshape(-1, 1) if axis is None else np.moveaxis(known, axis, 0)
    by_merit = np.argsort(-lines, axis=0, kind="stable")
    descending = np.take_along_axis(lines, by_merit, axis=0)
    ranks = np.ones(lines.shape, np.intp)
    first = descending[0]
    for k in range(1, len(lines)):
        apart = ~(descending[k] >= first - margin)
        ranks[k] = np.where(apart, k + 1, ranks[k - 1])
        first = np.where(apart, descending[k], first)
    ranks[np.isneginf(descending)] = 0
    placed = np.empty_like(ranks)
    np.put_along_axis(placed, by_merit, ranks, axis=0)
    return placed.reshape(known.shape) if axis is None else np.moveaxis(placed, 0, axis)


def _stretches(scores: Floats) -> Iterator[Floats]:
    """Scores in stretches of places small enough to stay in the processor's cache."""
    n = max(1, _CACHED // len(scores))
    return (scores[:, k : k + n] for k in range(0, scores.shape[1], n))


def _joined(parts: Iterable[tuple[NDArray, ...]]) -> Iterator[NDArray]:
    """Each result for all places, from the results for one stretch after the other."""
    return map(np.concatenate, zip(*parts, strict=True))


def _best(scores: Floats) -> tuple[NDArray[np.intp], Floats]:
    top = np.fmax.reduce(scores, axis=0)
    return _index(scores, top), top


def _leaders(scores: Floats, p: float, margin: float) -> Leaders:
    option, top = _best(scores)
    score = inverse_box_cox(top, p)
    least = np.minimum(box_cox(np.maximum(score - margin, 0), p), top)
    tied = np.add.reduce((scores >= least).view(np.uint8), axis=0, dtype=_counter(len(scores)))
    return Leaders(option, score, tied.astype(np.intp))


def _index(scores: Floats, top: Floats) -> NDArray[np.intp]:
    """First option that has the top score, -1 where that is no score at all.

    Options are numbered from the last, so that the first is the highest number that holds; on small
    integers this is several times faster than argmax down the first axis.
    """
    n = len(scores)
    numbers = (scores == top).view(np.uint8).astype(_counter(n), copy=False)
    numbers *= np.arange(n, 0, -1, dtype=numbers.dtype)[:, None]
    highest = numbers.max(axis=0).astype(np.intp)
    return np.where(highest, n - highest, -1)


def _counter(n: int) -> np.dtype:
    """Smallest integer type that counts to n."""
    return np.min_scalar_type(n)
