"""A 0-1 programme to its proven optimum, by looking only at columns that can matter.

Let z be the linear relaxation's optimum and r[j] the reduced cost of column j there. Any answer
with x[j] = 1 is worth at most z - r[j], so whoever seeks answers worth z - d or more may leave out
all columns with r[j] > d (reduced-cost fixing: Dantzig, Fulkerson and Johnson 1954, Solution of a
large-scale traveling-salesman problem, Operations Research 2:393-410; Crowder, Johnson and Padberg
1983, Operations Research 31:803-834; both from memory). With spacing as cliques z mostly lies
within 1 % of the best placement, so a small d leaves a small programme: its optimum, when it is
worth z - d, is the optimum of all; when it is worth less, d is widened to it and the next round is
the last. Where pollen, money and room are all scarce at once z lies further off (5 % was seen), a
small d may leave nothing to be found, and time runs out: then the bound says how far off we may be.
"""

from dataclasses import dataclass, replace
from time import perf_counter

import numpy as np
from scipy import sparse
from scipy.optimize import Bounds, LinearConstraint, OptimizeResult, linprog, milp

Array = np.ndarray
FIRST_SHARE = 0.01
WIDER = 4.0
CLOSE = 1e-6
PROVING = 0.8  # of the time left; the rest is for finding any answer when there is none yet
ANY = 1e6


@dataclass(frozen=True)
class Linear:
    """Maximise worth . x with low <= matrix x <= high, 0 <= x <= top, x[whole] integer."""

    worth: Array
    matrix: sparse.csr_array
    low: Array
    high: Array
    top: Array
    whole: Array


@dataclass(frozen=True)
class Optimum:
    """The best values found (None: none), their worth, a bound on any worth, and the status."""

    values: Array | None
    worth: float
    bound: float
    status: str


def optimum(linear: Linear, seconds: float, gap: float = 0.0) -> Optimum:
    """The best values of a 0-1 programme, proven to a share `gap` of its worth (or 1e-6)."""
    end = perf_counter() + seconds
    relaxed = _relaxed(linear)
    if relaxed is None:
        return Optimum(None, np.nan, -np.inf, "impossible")
    bound, cost = relaxed
    best = Optimum(None, np.nan, bound, "time")
    reach = max(FIRST_SHARE * abs(bound), CLOSE)
    while (left := end - perf_counter()) > 0:
        kept = (cost <= reach) | ~linear.whole
        answer = _answer(linear, kept, PROVING * left, gap)
        unseen = -np.inf if kept.all() else bound - reach
        best = _better(best, answer, max(unseen, _limit(answer, bound)))
        if answer.status == 1:
            return best if best.values is not None else _any(linear, best, end - perf_counter())
        if kept.all() or best.worth >= unseen - CLOSE:
            return _proven(best)
        reach = bound - best.worth + CLOSE if best.values is not None else WIDER * reach
    return best


def _any(linear: Linear, best: Optimum, seconds: float) -> Optimum:
    """The first values that meet the rows, for want of better ones."""
    return _better(best, _answer(linear, np.ones_like(linear.whole), seconds, ANY), best.bound)


def _proven(best: Optimum) -> Optimum:
    if best.values is None:
        return Optimum(None, np.nan, -np.inf, "impossible")
    return replace(best, status="proven", bound=max(best.bound, best.worth))


def _better(best: Optimum, answer: OptimizeResult, bound: float) -> Optimum:
    bound = min(best.bound, bound)
    if answer.x is None or (best.values is not None and -answer.fun <= best.worth):
        return replace(best, bound=bound)
    return Optimum(answer.x, -answer.fun, bound, "time")


def _limit(answer: OptimizeResult, bound: float) -> float:
    """The most that the columns looked at can be worth."""
    if answer.status == 2:
        return -np.inf
    dual = answer.get("mip_dual_bound")
    return bound if dual is None or not np.isfinite(dual) else -dual


def _relaxed(linear: Linear) -> tuple[float, Array] | None:
    """Worth of the linear relaxation and reduced costs of its columns; None where it has none."""
    equal = linear.low == linear.high
    above, below = ~equal & np.isfinite(linear.high), ~equal & np.isfinite(linear.low)
    answer = linprog(
        -linear.worth,
        A_ub=sparse.vstack([linear.matrix[above], -linear.matrix[below]]),
        b_ub=np.concatenate([linear.high[above], -linear.low[below]]),
        A_eq=linear.matrix[equal],
        b_eq=linear.low[equal],
        bounds=[(0.0, top) for top in linear.top.tolist()],
        method="highs",
    )
    if answer.status == 2:
        return None
    if answer.x is None or answer.fun is None:
        raise RuntimeError(f"the solver stopped without an answer: {answer.message}")
    return -answer.fun, answer.lower.marginals


def _answer(linear: Linear, kept: Array, seconds: float, gap: float) -> OptimizeResult:
    answer = milp(
        -linear.worth,
        integrality=linear.whole.astype(int),
        bounds=Bounds(0, np.where(kept, linear.top, 0)),
        constraints=LinearConstraint(linear.matrix, linear.low, linear.high),
        options={"time_limit": max(seconds, 1e-3), "mip_rel_gap": gap},
    )
    if answer.status not in (0, 1, 2):
        raise RuntimeError(f"the solver stopped without an answer: {answer.message}")
    return answer
