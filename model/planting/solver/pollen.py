"""The rows of pollination: who needs whose pollen within the bees' range (model in rows.py)."""

from collections import defaultdict
from dataclasses import dataclass, field

import numpy as np

from .programme import Array, Programme
from .rows import HARD, Candidates, Rows

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
    near, clones = _near(programme), programme.clones[trees.option]
    flowers = _Flowers(columns)
    for (position, clone, _, _, lack), takers in _takers(programme, trees, apart).items():
        worth = np.asarray(programme.partners)[trees.option[takers[0]], trees.option]
        around = near[position][trees.position] & (trees.position != position)
        around &= (worth > 0) & (clones != clone) & ~trees.clash[takers].all(axis=0)
        givers = np.flatnonzero(around)
        tag = ("partners", int(trees.option[takers[0]]))
        _add(rows, takers, givers, tag)
        worths = dict(zip(clones[givers].tolist(), worth[givers].tolist(), strict=True))
        if min(worths.values(), default=lack) + SLACK >= lack:
            continue
        flowering = {
            cultivar: flowers.column(
                (position, cultivar),
                np.flatnonzero(near[position][trees.position] & (clones == cultivar)),
                rows,
            )
            for cultivar in worths
        }
        _several(rows, takers, lack, worths, flowering, tag)
    return flowers.columns


def _several(
    rows: Rows,
    takers: Array,
    lack: float,
    worths: dict[int, float],
    flowering: dict[int, int],
    tag: tuple[str, int],
) -> None:
    """Add the rows of trees for which one cultivar is not always enough."""
    for left, worth in worths.items():
        if worth + SLACK < lack:
            others = [column for cultivar, column in flowering.items() if cultivar != left]
            _add(rows, takers, np.array(others, int), tag)
    present = np.array([flowering[cultivar] for cultivar in worths], int)
    share = np.minimum(list(worths.values()), lack)
    weights = np.concatenate([np.full(len(takers), lack), -share])
    rows.add(np.concatenate([takers, present]), weights, -np.inf, SLACK, tag)


@dataclass
class _Flowers:
    """Columns v[p,c] made as they are needed, and how many columns there are by now."""

    columns: int
    known: dict[tuple[int, int], int] = field(default_factory=dict)

    def column(self, key: tuple[int, int], givers: Array, rows: Rows) -> int:
        """The column for a position and cultivar: at most 1, and 0 where no giver stands."""
        if key not in self.known:
            self.known[key] = self.columns
            own = np.array([self.columns])
            _add(rows, own, givers, HARD)
            rows.add(own, 1, -np.inf, 1)
            self.columns += 1
        return self.known[key]


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


def _add(rows: Rows, left: Array, right: Array, tag: tuple[str, int]) -> None:
    weights = np.repeat([1.0, -1.0], [len(left), len(right)])
    rows.add(np.concatenate([left, right]), weights, -np.inf, 0, tag)
