"""The rows of pollination: who needs whose pollen within the bees' range (model in rows.py)."""

from collections import defaultdict

import numpy as np

from .programme import Array, Programme
from .rows import Candidates, Rows

SLACK = 1e-9
Taker = tuple[int, int, bytes, int, float]


def pollen_rows(
    programme: Programme, trees: Candidates, rows: Rows, columns: int, *, apart: bool = False
) -> int:
    """Add the rows of pollination; the columns there are then.

    apart: keep each option's rows to itself, so that each can be given up by itself.
    """
    if programme.needs is None or programme.partners is None:
        return columns
    near = _near(programme)
    flowers: dict[tuple[int, int], int] = {}
    for (position, clone, _, _, lack), takers in _takers(programme, trees, apart).items():
        around = near[position][trees.position] & (trees.position != position)
        around &= ~trees.clash[takers].all(axis=0)
        worth = np.asarray(programme.partners)[trees.option[takers[0]], trees.option]
        around &= (worth > 0) & (programme.clones[trees.option] != clone)
        givers = np.flatnonzero(around)
        tag = ("partners", int(trees.option[takers[0]]))
        clones = programme.clones[trees.option[givers]]
        values = dict(zip(clones.tolist(), worth[givers].tolist(), strict=True))
        for left in [None, *values]:
            if left is None or values[left] + SLACK < lack:
                rest = givers if left is None else givers[clones != left]
                _add(rows, takers, rest, tag)
        if _sure(values, lack):
            continue
        for cultivar in values:
            if (position, cultivar) not in flowers:
                flowers[position, cultivar] = columns
                own = near[position][trees.position] & (programme.clones[trees.option] == cultivar)
                _add(rows, np.array([columns]), np.flatnonzero(own), ("hard", -1))
                rows.add(np.array([columns]), 1, -np.inf, 1)
                columns += 1
        present = np.array([flowers[position, cultivar] for cultivar in values], int)
        share = np.minimum(list(values.values()), lack)
        weights = np.concatenate([np.full(len(takers), lack), -share])
        rows.add(np.concatenate([takers, present]), weights, -np.inf, SLACK, tag)
    return columns


def _near(programme: Programme) -> Array:
    """Which positions are within the bees' range of each other (position, position) bool."""
    x, y = np.asarray(programme.x), np.asarray(programme.y)
    return np.hypot(x[:, None] - x, y[:, None] - y) <= programme.bee_range + SLACK


def _takers(programme: Programme, trees: Candidates, apart: bool) -> dict[Taker, Array]:
    """Columns of the trees that lack pollen, those together whose rows would be the same."""
    found = defaultdict(list)
    partners, served = np.asarray(programme.partners), programme.served
    needs = np.asarray(programme.needs, float)
    for column, (position, option) in enumerate(zip(trees.position, trees.option, strict=True)):
        lack = needs[option] - (0.0 if served is None else float(served[position, option]))
        if lack > SLACK and needs[option] > 0:
            clone = int(programme.clones[option])
            alone = int(option) if apart else -1
            alike = int(position), clone, partners[option].tobytes(), alone, round(lack, 9)
            found[alike].append(column)
    return {taker: np.array(columns) for taker, columns in found.items()}


def _sure(values: dict[int, float], lack: float) -> bool:
    """Whether the rows that leave one cultivar out say all there is to say."""
    worths = sorted(values.values())
    return not worths or worths[0] + SLACK >= lack or sum(worths[:2]) + SLACK >= lack


def _add(rows: Rows, left: Array, right: Array, tag: tuple[str, int]) -> None:
    weights = np.repeat([1.0, -1.0], [len(left), len(right)])
    rows.add(np.concatenate([left, right]), weights, -np.inf, 0, tag)
