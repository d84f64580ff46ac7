"""The best placement of an order, others nearly as good, and the one that moves fewest trees.

Solved with HiGHS as SciPy carries it (Huangfu and Hall 2018, Parallelizing the dual revised simplex
method, Mathematical Programming Computation 10:119-142): it proves its optima, comes with SciPy,
answers the same input alike unless it runs out of time, and needs no rounding of the scores, as
CP-SAT does (tests/speed compares the two). Proven means to 1e-6 of the score, HiGHS's own limit.

Equal placements: each tree's score is raised by less than 1e-5 by its column's number, scattered so
that sets of trees rarely get the same, and HiGHS itself takes the same path each time.
Totals and bounds are told without it, so a bound is up to 1e-5 a tree too high, never too low.
"""

from dataclasses import replace
from time import perf_counter

import numpy as np
from scipy.optimize import linear_sum_assignment

from .pollen import pollen_rows
from .programme import Array, Programme, Solution, Tree
from .rows import Candidates, Rows, candidates, order_rows, spacing_rows
from .sifting import Linear, Optimum, optimum

GOLDEN = (5**0.5 - 1) / 2
TIE = 1e-5
ROUNDING = 1e-6


def solution(programme: Programme, seconds: float = 60, gap: float = 0.0) -> Solution:
    """The placement with the greatest total score, proven to a share `gap` of it."""
    begun = perf_counter()
    trees = candidates(programme)
    rows, columns = _rows(programme, trees)
    found = optimum(
        linear(trees.score + tie_breaks(trees), rows, columns), _left(begun, seconds), gap
    )
    return _told(programme, trees, found, begun)


def next_solutions(
    programme: Programme,
    best: Solution,
    count: int,
    within: float,
    differ_by: int = 1,
    seconds: float = 60,
) -> list[Solution]:
    """Up to `count` placements worth at least (1 - within) of the best, best first.

    Each differs from the best and from those before it in the places or kinds of at least
    `differ_by` trees: of the trees S of each, at most len(S) - differ_by are chosen again (a
    canonical cut: Balas and Jeroslow 1972, SIAM Journal on Applied Mathematics 23:61-69).
    """
    begun = perf_counter()
    trees = candidates(programme)
    rows, columns = _rows(programme, trees)
    worth = np.concatenate([trees.score, np.zeros(columns - len(trees.score))])
    rows.add(np.arange(columns), worth, (1 - within) * best.total - ROUNDING, np.inf)
    found: list[Solution] = []
    for _ in range(count):
        before = (found or [best])[-1]
        rows.add(_columns(trees, before), 1, -np.inf, len(before.chosen) - differ_by)
        model = linear(trees.score + tie_breaks(trees), rows, columns)
        other = _told(programme, trees, optimum(model, _left(begun, seconds)), begun)
        if not other.chosen:
            break
        found.append(other)
    return found


def least_changed(programme: Programme, before: tuple[Tree, ...], seconds: float = 60) -> Solution:
    """The placement that moves the fewest trees of `before`, and the best of those that do.

    Each tree costs moved_cost where it is planted, or 1 unless it stood there before. The least
    cost is proven first, then held while the total score is made as great as can be.
    """
    begun = perf_counter()
    trees = candidates(programme)
    rows, columns = _rows(programme, trees)
    cost = _moved_cost(programme, before)[trees.position, trees.option]
    least = optimum(linear(-cost, rows, columns), _left(begun, seconds))
    if least.values is None:
        return _told(programme, trees, least, begun)
    rows.add(np.arange(len(cost)), cost, -np.inf, -least.worth + ROUNDING)
    model = linear(trees.score + tie_breaks(trees), rows, columns)
    found = optimum(model, _left(begun, seconds))
    if found.values is None:
        found = replace(least, bound=found.bound, status="time")
    if least.status != "proven":
        found = replace(found, status="time")
    return _told(programme, trees, found, begun)


def linear(score: Array, rows: Rows, columns: int) -> Linear:
    """Rows and scores of the trees as a programme; columns after the trees' are not integer."""
    trees = len(score)
    worth = np.concatenate([score, np.zeros(columns - trees)])
    top = np.where(np.arange(columns) < trees, 1.0, np.inf)
    bounds = np.array(rows.low), np.array(rows.high)
    return Linear(worth, rows.matrix(columns), *bounds, top, np.arange(columns) < trees)


def tie_breaks(trees: Candidates) -> Array:
    """What each column's score is raised by so that no two placements tie (candidate,)."""
    return TIE * (np.arange(1, len(trees.score) + 1) * GOLDEN % 1)


def wish_of(programme: Programme, chosen: list[Tree]) -> tuple[tuple[int, int, int], ...]:
    """Chosen trees with the wish that each meets, in the order of positions."""
    slots = np.repeat(np.arange(len(programme.counts)), programme.counts)
    options = np.array([option for _, option in chosen], dtype=int)
    misfit = ~np.asarray(programme.wishes, bool)[slots][:, options].T
    tree, slot = linear_sum_assignment(misfit.astype(int))
    return tuple((*chosen[t], int(slots[s])) for t, s in zip(tree, slot, strict=True))


def _rows(programme: Programme, trees: Candidates) -> tuple[Rows, int]:
    rows = Rows()
    columns = order_rows(programme, trees, rows, len(trees.option))
    columns = pollen_rows(programme, trees, rows, columns)
    spacing_rows(trees, rows)
    return rows, columns


def _told(programme: Programme, trees: Candidates, found: Optimum, begun: float) -> Solution:
    """An optimum in words of the programme."""
    seconds = perf_counter() - begun
    if found.values is None:
        return Solution((), np.nan, found.bound, found.status, seconds)
    columns = np.flatnonzero(found.values[: len(trees.score)] > 0.5)
    pairs = zip(trees.position[columns].tolist(), trees.option[columns].tolist(), strict=True)
    total = float(trees.score[columns].sum())
    tight = found.bound - found.worth <= 2 * ROUNDING
    bound = total if tight else max(found.bound, total)
    return Solution(wish_of(programme, list(pairs)), total, bound, found.status, seconds)


def _columns(trees: Candidates, placed: Solution) -> Array:
    numbers = [trees.number(position, option) for position, option, _ in placed.chosen]
    return np.concatenate([np.empty(0, int), *numbers])


def _moved_cost(programme: Programme, before: tuple[Tree, ...]) -> Array:
    if programme.moved_cost is not None:
        return np.asarray(programme.moved_cost, float)
    cost = np.ones(np.shape(programme.scores))
    for position, option in before:
        cost[position, option] = 0.0
    return cost


def _left(begun: float, seconds: float) -> float:
    return max(seconds - (perf_counter() - begun), 1e-3)
