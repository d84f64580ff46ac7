"""An order as a mixed integer linear programme: columns and rows.

Columns: x[p,a] in {0,1}, option a stands at position p, one for each pair that is allowed; then
y[a,w] >= 0, the trees of option a that meet wish w, for options that meet several wishes; then
v[p,c] in [0,1], cultivar c flowers within the bees' range of p, where it is needed.

    maximise  sum score[p,a] x[p,a]
    wish w        sum x[p,a] over options that meet w alone + sum y[a,w] = count[w]
    option a      sum_p x[p,a] = sum_w y[a,w], where it meets several wishes
    clique        sum x <= 1: one tree a position, and crowns apart (see cliques.py)
    pollen        d x[p,a] <= sum over cultivars c of min(worth[a,c], d) v[p,c],  d = need - served
                  v[p,c] <= sum of x[q,b], b of cultivar c, q within range
    budget, window of picking, limit of a kind:  weighted sums of x between bounds

y follows whole numbers of trees (the rows of a transport problem are totally unimodular: Hoffman
and Kruskal 1956), and v = min(1, sum) meets its rows whenever anything does, so neither need be
declared integer. The choice of places is Church and ReVelle's (1974, The maximal covering location
problem, Papers in Regional Science 32:101-118) kind of 0-1 location model with the node-packing
rows of Padberg (1973). Two more rows of pollen are implied for whole trees and cut off fractions:

    x[p,a] <= sum of all x[q,b] that are worth something to it
    x[p,a] <= sum of v[p,c] without one cultivar, for each that alone is not enough

The first says all where any one partner is enough, and then stands alone, without v. Its sum
leaves out trees that cannot stand beside x[p,a]. Rows of options alike at p are put together: their
sum is at most 1 anyway.
"""

from dataclasses import dataclass, field

import numpy as np
from scipy import sparse

from .cliques import clique_cover, conflicts
from .programme import Array, Programme

Tag = tuple[str, int]
HARD: Tag = ("hard", -1)


@dataclass
class Rows:
    """Rows being gathered: columns, weights, bounds, and what each is about (kind, which)."""

    columns: list[Array] = field(default_factory=list)
    weights: list[Array] = field(default_factory=list)
    low: list[float] = field(default_factory=list)
    high: list[float] = field(default_factory=list)
    tags: list[Tag] = field(default_factory=list)

    def add(
        self, columns: Array, weights: Array | float, low: float, high: float, tag: Tag = HARD
    ) -> None:
        """One more row: low <= weights . columns <= high."""
        columns = np.asarray(columns, dtype=int)
        self.columns.append(columns)
        self.weights.append(np.broadcast_to(np.asarray(weights, float), columns.shape))
        self.low.append(low)
        self.high.append(high)
        self.tags.append(tag)

    def matrix(self, columns: int) -> sparse.csr_array:
        """All rows as one sparse matrix (row, column); weights of one column in a row add up."""
        rows = np.repeat(np.arange(len(self.columns)), [len(c) for c in self.columns])
        flat = np.concatenate([np.empty(0, int), *self.columns])
        weights = np.concatenate([np.empty(0), *self.weights])
        return sparse.csr_array((weights, (rows, flat)), shape=(len(self.columns), columns))


@dataclass(frozen=True)
class Candidates:
    """The pairs that may be planted, one column each: position, option, score, and who clashes."""

    position: Array
    option: Array
    score: Array
    clash: Array
    cliques: list[Array]

    def numbers(self, option: int) -> Array:
        """Columns of an option."""
        return np.flatnonzero(self.option == option)

    def number(self, position: int, option: int) -> Array:
        """The column of a tree, empty where it may not stand."""
        return np.flatnonzero((self.position == position) & (self.option == option))


def candidates(programme: Programme) -> Candidates:
    """All pairs that may be planted with their conflicts and cliques; independent of the scores."""
    position, option = np.nonzero(programme.allowed)
    x, y = programme.x[position], programme.y[position]
    radius = programme.radius[position, option]
    clash = conflicts(x, y, radius, programme.gap, position)
    cliques = clique_cover(clash, np.lexsort((-radius, position, x)))
    return Candidates(position, option, programme.scores[position, option], clash, cliques)


def order_rows(programme: Programme, trees: Candidates, rows: Rows, columns: int) -> int:
    """Add the rows of wishes, budget, windows, limits and set trees; the columns there are then."""
    columns = _wish_rows(programme, trees, rows, columns)
    every = np.arange(len(trees.option))
    if programme.budget is not None and programme.prices is not None:
        prices = np.asarray(programme.prices)[trees.option]
        rows.add(every, prices, -np.inf, programme.budget, ("budget", 0))
    if programme.seasons is not None and programme.season_counts is not None:
        for window, (options, (low, high)) in enumerate(
            zip(programme.seasons, programme.season_counts, strict=True)
        ):
            picked = np.flatnonzero(np.asarray(options, bool)[trees.option])
            rows.add(picked, 1, low, high, ("season", window))
    if programme.at_most is not None:
        for option, limit in enumerate(programme.at_most):
            rows.add(trees.numbers(option), 1, -np.inf, limit)
    for position, option in programme.fixed:
        rows.add(trees.number(position, option), 1, 1, np.inf, ("fixed", position))
    return columns


def _wish_rows(programme: Programme, trees: Candidates, rows: Rows, columns: int) -> int:
    wishes = np.asarray(programme.wishes, bool)
    shared = np.flatnonzero(wishes.sum(axis=0) > 1)
    met: list[list[int]] = [[] for _ in wishes]
    for option in shared.tolist():
        own = trees.numbers(option)
        meets = np.flatnonzero(wishes[:, option])
        links = columns + np.arange(len(meets))
        weights = np.repeat([1.0, -1.0], [len(own), len(links)])
        rows.add(np.concatenate([own, links]), weights, 0, 0)
        for wish, link in zip(meets, links, strict=True):
            met[wish].append(int(link))
        columns += len(meets)
    single = ~np.isin(trees.option, shared)
    for number, count in enumerate(np.asarray(programme.counts).tolist()):
        own = np.flatnonzero(single & wishes[number, trees.option])
        rows.add(np.concatenate([own, met[number]]), 1, count, count, ("wish", number))
    return columns


def spacing_rows(trees: Candidates, rows: Rows) -> None:
    """Add a row for each clique."""
    for clique in trees.cliques:
        rows.add(clique, 1, -np.inf, 1)
