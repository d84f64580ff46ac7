"""Placements judged and searched one by one, in plain Python: the small cases' oracle."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations, permutations
from math import hypot

import numpy as np

from model.planting.solver.programme import Programme

Trees = tuple[tuple[int, int], ...]


@dataclass(frozen=True)
class Judgement:
    """What is wrong with a set of trees; `stands` when they are apart and where they may be."""

    stands: bool
    missing: int
    without_partners: frozenset[int]
    over_budget: float
    season_faults: int
    lifted: int

    @property
    def right(self) -> bool:
        """Whether it keeps to every rule."""
        return self.stands and self.given_up == 0

    @property
    def given_up(self) -> float:
        """How many trees and conditions it gives up."""
        over = self.over_budget > 1e-9
        return self.missing + len(self.without_partners) + over + self.season_faults + self.lifted


def judged(g: Programme, trees: Trees) -> Judgement:
    """A set of trees against the programme, rule by rule."""
    stands = _apart(g, trees) and all(g.allowed[t] for t in trees) and _within_limits(g, trees)
    stands = stands and _matched(g, trees)
    cost = sum(float(g.prices[o]) for _, o in trees) if g.budget is not None else 0.0
    over = max(cost - g.budget, 0.0) if g.budget is not None else 0.0
    faults = 0
    if g.seasons is not None:
        for options, (low, high) in zip(g.seasons, g.season_counts, strict=True):
            n = sum(bool(options[o]) for _, o in trees)
            faults += max(low - n, 0) + max(n - high, 0)
    hungry = frozenset(t[1] for t in trees if not _served(g, t, trees))
    lifted = sum(t not in trees for t in g.fixed)
    return Judgement(stands, int(sum(g.counts)) - len(trees), hungry, over, int(faults), lifted)


def all_sets(g: Programme, sizes: tuple[int, ...]) -> Iterator[Trees]:
    """All sets of that many trees that may stand where they are."""
    pairs = [tuple(map(int, pair)) for pair in np.argwhere(g.allowed)]
    for size in sizes:
        yield from combinations(pairs, size)


def total(g: Programme, trees: Trees) -> float:
    return sum(float(g.scores[t]) for t in trees)


def right_sets(g: Programme) -> list[Trees]:
    """All placements that keep to the programme, best first."""
    found = [t for t in all_sets(g, (int(sum(g.counts)),)) if judged(g, t).right]
    return sorted(found, key=lambda t: -total(g, t))


def _apart(g: Programme, trees: Trees) -> bool:
    for (p, a), (q, b) in combinations(trees, 2):
        room = hypot(g.x[p] - g.x[q], g.y[p] - g.y[q])
        if p == q or room < g.radius[p, a] + g.radius[q, b] + g.gap:
            return False
    return True


def _within_limits(g: Programme, trees: Trees) -> bool:
    if g.at_most is None:
        return True
    return all(sum(o == k for _, o in trees) <= limit for k, limit in enumerate(g.at_most))


def _matched(g: Programme, trees: Trees) -> bool:
    slots = [w for w, count in enumerate(g.counts) for _ in range(count)]
    return any(
        all(g.wishes[w, o] for w, (_, o) in zip(chosen, trees, strict=True))
        for chosen in permutations(slots, len(trees))
    )


def _served(g: Programme, taker: tuple[int, int], trees: Trees) -> bool:
    if g.needs is None or g.needs[taker[1]] == 0:
        return True
    p, a = taker
    worth: dict[int, float] = {}
    for q, b in trees:
        near = hypot(g.x[p] - g.x[q], g.y[p] - g.y[q]) <= g.bee_range
        if q != p and near and g.clones[b] != g.clones[a]:
            worth[int(g.clones[b])] = float(g.partners[a, b])
    at_hand = 0.0 if g.served is None else float(g.served[p, a])
    return sum(worth.values()) + at_hand >= g.needs[a] - 1e-9
