"""What to give up when an order cannot be met: the least that lets the rest be planted.

Each wish, partner condition, window, the budget and each set tree gets a slack that says by how
much it is given up; the weighted sum of slacks is made least (elastic programming: Chinneck 2008,
Feasibility and Infeasibility in Optimization, chapter 6, from memory), then of all equal ways the
one whose trees score best is told. Spacing, limits and closed positions are never given up.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np

from .pollen import pollen_rows
from .programme import Array, Programme, Relaxation
from .rows import Candidates, Rows, Tag, candidates, order_rows, spacing_rows
from .sifting import Linear, optimum

WEIGHTS: Mapping[str, float] = {
    "wish": 1.0,
    "partners": 1.0,
    "budget": 1.0,
    "season": 1.0,
    "fixed": 1.0,
}
ROUNDING = 1e-6


@dataclass
class Slacks:
    """Whole columns that stand for giving up: what about, cost, greatest value."""

    first: int
    tags: list[Tag] = field(default_factory=list)
    cost: list[float] = field(default_factory=list)
    top: list[float] = field(default_factory=list)

    def add(self, tag: Tag, cost: float, top: float) -> int:
        """One more slack; its column."""
        self.tags.append(tag)
        self.cost.append(cost)
        self.top.append(top)
        return self.first + len(self.tags) - 1


def impossible_because(
    programme: Programme, seconds: float = 60, weights: Mapping[str, float] = WEIGHTS
) -> tuple[Relaxation, ...]:
    """The least to give up so that the order can be met, empty when it can be met as it is.

    weights by kind: what a tree short of a wish or a window, a kind without its partners, going
    over the budget at all, and lifting a set tree count. RuntimeError where time runs out.
    """
    trees = candidates(programme)
    rows = Rows()
    columns = order_rows(programme, trees, rows, len(trees.option))
    columns = pollen_rows(programme, trees, rows, columns, apart=True)
    slacks = _loosened(programme, rows, columns, weights)
    spacing_rows(trees, rows)
    values = _least(trees, rows, slacks, seconds)
    over = 0.0
    if programme.budget is not None and programme.prices is not None:
        chosen = trees.option[values[: len(trees.option)] > 0.5]
        over = float(np.asarray(programme.prices)[chosen].sum() - programme.budget)
    return _relaxations(slacks, values[slacks.first :], over)


def _loosened(
    programme: Programme, rows: Rows, columns: int, weights: Mapping[str, float]
) -> Slacks:
    slacks = Slacks(columns)
    without: dict[int, int] = {}
    for row, (kind, which) in enumerate(list(rows.tags)):
        weight = weights.get(kind, 0.0)
        if kind in ("wish", "fixed"):
            _loosen(rows, row, slacks.add((kind, which), weight, rows.low[row]), 1)
        elif kind == "season":
            _loosen(rows, row, slacks.add((kind, which), weight, sum(programme.counts)), 1)
            _loosen(rows, row, slacks.add((kind, which), weight, sum(programme.counts)), -1)
        elif kind == "partners":
            if which not in without:
                without[which] = slacks.add((kind, which), weight, 1)
            _loosen(rows, row, without[which], -max(rows.weights[row].max(), 0.0))
        elif kind == "budget":
            _loosen(rows, row, slacks.add((kind, which), weight, 1), -rows.weights[row].sum())
    return slacks


def _loosen(rows: Rows, row: int, column: int, weight: float) -> None:
    rows.columns[row] = np.append(rows.columns[row], column)
    rows.weights[row] = np.append(rows.weights[row], weight)


def _least(trees: Candidates, rows: Rows, slacks: Slacks, seconds: float) -> Array:
    """Values of all columns that give up least and, of those, have the best total score."""
    candidate = len(trees.score)
    columns = slacks.first + len(slacks.tags)
    cost = np.concatenate([np.zeros(slacks.first), slacks.cost])
    top = np.concatenate(
        [np.ones(candidate), np.full(slacks.first - candidate, np.inf), slacks.top]
    )
    numbers = np.arange(columns)
    whole = (numbers < candidate) | (numbers >= slacks.first)
    score = np.concatenate([trees.score, np.zeros(columns - candidate)])
    values = np.zeros(columns)
    for worth in (-cost, score):
        bounds = np.array(rows.low), np.array(rows.high)
        model = Linear(worth, rows.matrix(columns), *bounds, top, whole)
        found = optimum(model, seconds)
        if found.values is None:
            raise RuntimeError("no time left to find what to give up; allow more seconds")
        values = found.values
        rows.add(numbers, cost, -np.inf, float(cost @ np.round(values)) + ROUNDING)
    return values


def _relaxations(slacks: Slacks, values: Array, over: float) -> tuple[Relaxation, ...]:
    told = [
        Relaxation(kind, which, over if kind == "budget" else float(round(value)))
        for (kind, which), value in zip(slacks.tags, values, strict=True)
        if value > 0.5
    ]
    return tuple(sorted(told, key=lambda r: (r.kind, r.which)))
