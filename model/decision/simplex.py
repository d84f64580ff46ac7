"""Weightings drawn at random: even over all that the rules allow, or near a given one.

Without rules, exponential variates over their sum are even over the simplex; sorted, they are even
over one order of it (Devroye 1986, Non-Uniform Random Variate Generation, V.2 and V.3). Other rules
are met by throwing away what breaks them, or, where too little would be left, by random walks.
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from .hit_and_run import points_within
from .weight_rules import WeightRules, clash, stated
from .weights import normalised

Floats = NDArray[np.float64]

_NO_RULES = WeightRules()
_WORTHWHILE = 0.02  # share kept below which random walks are faster than throwing away
_BATCH = 2**15
_ROUNDING = 1e-12


def weight_samples(
    n: int,
    count: int,
    rules: WeightRules = _NO_RULES,
    seed: int = 1,
    names: Sequence[str] | None = None,
) -> Floats:
    """Weights (count, n), each row together 1, even over all that the rules allow.

    The same for the same seed. ValueError where no weights keep the rules, naming those that clash
    by the factors' names, if given.
    """
    at_odds = clash(n, rules, names)
    if at_odds:
        raise ValueError(
            f"weights: found rules that cannot all hold: {', '.join(at_odds)}; expected rules that "
            "some weights, together 100 %, can keep; mend by loosening one of these"
        )
    rng = np.random.default_rng(seed)
    kept = _sifted(n, count, rules, rng)
    return _walked(n, count, rules, rng) if kept is None else kept


def weights_near(w: ArrayLike, count: int, concentration: float, seed: int = 1) -> Floats:
    """Weights (count, factor) scattered about w (factor,): Dirichlet(concentration w).

    Their mean is w, and the variance of each is w (1 - w) / (concentration + 1); a factor without
    weight stays without.
    """
    centre = normalised(w)
    weighs = centre > 0
    near = np.zeros((count, len(centre)))
    rng = np.random.default_rng(seed)
    near[:, weighs] = rng.dirichlet(concentration * centre[weighs], count)
    return near


def _sifted(n: int, count: int, rules: WeightRules, rng: np.random.Generator) -> Floats | None:
    """Weights (count, n) by throwing away what breaks a rule; None if little would be left."""
    above = _outweighs(n, rules)
    low, high = _limits(n, rules, above)
    free = np.array([i not in rules.fixed for i in range(n)])
    chains = _chains(above, free)
    base = low.copy()
    for chain in chains:
        base[chain] = low[chain].min()  # alike along a chain: only then may it be sorted
    room = 1 - base.sum()
    if room < 0 or (room < _ROUNDING and free.any()):
        return None
    kept: list[Floats] = []
    found = 0
    while found < count:
        drawn = np.tile(base, (min(max(count, 1024), _BATCH), 1))
        parts = rng.standard_exponential((len(drawn), int(free.sum())))
        drawn[:, free] += room * parts / parts.sum(axis=1, keepdims=True)
        for chain in chains:
            drawn[:, chain] = -np.sort(-drawn[:, chain], axis=1)
        good = drawn[_keeps(drawn, low, high, rules.order)]
        if len(good) < _WORTHWHILE * len(drawn):
            return None
        kept.append(good)
        found += len(good)
    return np.concatenate(kept)[:count]


def _keeps(
    drawn: Floats, low: Floats, high: Floats, order: Sequence[tuple[int, int]]
) -> NDArray[np.bool_]:
    """Which weights (draw,) of (draw, factor) keep the limits and the order."""
    good = np.all((drawn >= low - _ROUNDING) & (drawn <= high + _ROUNDING), axis=1)
    for i, j in order:
        good &= drawn[:, i] >= drawn[:, j] - _ROUNDING
    return good


def _walked(n: int, count: int, rules: WeightRules, rng: np.random.Generator) -> Floats:
    """Weights (count, n) by random walks through what the rules allow."""
    found = stated(n, rules)
    rows = np.vstack([-np.eye(n), *(rule.rows for rule in found)])
    bounds = np.concatenate([np.zeros(n), *(rule.bounds for rule in found)])
    drawn = points_within(rows, bounds, np.ones((1, n)), np.ones(1), count, rng)
    return np.maximum(drawn, 0)


def _outweighs(n: int, rules: WeightRules) -> NDArray[np.bool_]:
    """Whether a factor is to weigh at least as much as another (factor, factor), by any detour."""
    above = np.zeros((n, n), dtype=bool)
    for i, j in rules.order:
        above[i, j] = i != j
    for k in range(n):
        above |= np.outer(above[:, k], above[k])
    np.fill_diagonal(above, val=False)
    return above


def _limits(n: int, rules: WeightRules, above: NDArray[np.bool_]) -> tuple[Floats, Floats]:
    """Least and most (factor,) that each may weigh, by its own rules and by those it follows."""
    low, high = np.zeros(n), np.ones(n)
    for i, x in rules.low.items():
        low[i] = x
    for i, x in rules.high.items():
        high[i] = x
    for i, x in rules.fixed.items():
        low[i] = high[i] = x
    itself = above | np.eye(n, dtype=bool)
    least = np.where(itself, low[None, :], 0).max(axis=1)
    most = np.where(itself, high[:, None], 1).min(axis=0)
    for i, x in rules.fixed.items():
        least[i] = most[i] = x
    return least, most


def _chains(above: NDArray[np.bool_], free: NDArray[np.bool_]) -> list[list[int]]:
    """Free factors in chains, heaviest first, that compare within and with no free one besides."""
    related = (above | above.T) & np.outer(free, free)
    cyclic = np.any(above & above.T, axis=1)
    chains = []
    for i in np.flatnonzero(free):
        group = np.flatnonzero(related[i])
        first = group.size > 0 and i < group[0]
        members = np.append(i, group)
        within = np.ix_(members, members)
        pairs = group.size * members.size
        whole = related[within].sum() == related[members].sum() == pairs
        if first and whole and not cyclic[members].any():
            below = above[within].sum(axis=1)
            chains.append(members[np.argsort(-below)].tolist())
    return chains
