"""Rank acceptability and even weightings against exact volumes of regions of weights.

The shares that sampling estimates are volumes of polytopes, and those are computed here by other
means: divided differences, inclusion and exclusion, linear extensions, and the Qhull library.
"""

from collections.abc import Sequence
from fractions import Fraction
from itertools import combinations, pairwise, permutations
from math import comb, factorial

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.spatial import ConvexHull, Delaunay, HalfspaceIntersection

from model.decision import simplex
from model.decision.acceptability import acceptability, rank_acceptability
from model.decision.simplex import WeightRules, weight_samples

pytestmark = pytest.mark.published

COUNT = 40_000
# Four standard errors of a share in so many draws, at the widest (binomial).
NEAR = 4 * 0.5 / COUNT**0.5

# Invented example, one column an alternative A, B, C.
V = np.array([(9, 4, 5, 7), (5, 8, 6, 6), (3, 6, 9, 8)]).T / 10
PAIRS = {(0, 1): Fraction(1, 2), (0, 2): Fraction(27, 70), (1, 2): Fraction(21, 50)}
FIRST = (Fraction(47, 140), Fraction(83, 400), Fraction(1279, 2800))


def ahead(difference: Sequence[Fraction]) -> Fraction:
    """Share of even weightings w with difference @ w > 0.

    The divided difference of max(x, 0)**(n - 1) at the differences, which is the mean of its
    derivative over the simplex: Hermite and Genocchi, see de Boor (2005), Divided Differences,
    Surveys in Approximation Theory 1, 46-69, section 9. Equal nodes take the derivative.
    """
    nodes = sorted(difference)
    n = len(nodes)

    def table(i: int, j: int) -> Fraction:
        if nodes[i] == nodes[j]:
            k = j - i
            return comb(n - 1, k) * (nodes[i] ** (n - 1 - k) if nodes[i] > 0 else Fraction(0))
        return (table(i + 1, j) - table(i, j - 1)) / (nodes[j] - nodes[i])

    return table(0, n - 1)


@pytest.mark.parametrize(("pair", "exact"), PAIRS.items())
def test_pairwise_wins_are_exact_volumes(pair: tuple[int, int], exact: Fraction) -> None:
    a, b = pair
    tenths = [Fraction(round(10 * x), 10) for x in V[:, a] - V[:, b]]
    assert ahead(tenths) == exact
    found = acceptability(V[None][..., [a, b]], weight_samples(4, COUNT))
    assert found.rank_shares[0, 0] == pytest.approx(float(exact), abs=NEAR)


@settings(deadline=None, max_examples=25)
@given(st.lists(st.integers(-4, 4), min_size=2, max_size=8).filter(any))
def test_pairwise_wins_with_any_ties_among_the_differences(tenths: list[int]) -> None:
    u = np.array([tenths, [0] * len(tenths)], dtype=float).T[None]
    found = acceptability(u, weight_samples(len(tenths), COUNT)).rank_shares
    # Rather wider, since hypothesis looks for the worst of many.
    assert found[0, 0] == pytest.approx(float(ahead([Fraction(x) for x in tenths])), abs=1.5 * NEAR)


def region(walls: NDArray, inside: NDArray) -> tuple[float, NDArray]:
    """Volume and centroid of weights w with walls @ w >= 0, by Qhull; inside is one of them.

    The last weight is what the others leave, and the volume is that of the others' space.
    """
    every = np.vstack([np.eye(len(inside)), walls])
    rows, at = every[:, -1:] - every[:, :-1], -every[:, -1]
    corners = HalfspaceIntersection(np.column_stack([rows, at]), inside[:-1]).intersections
    cells = corners[Delaunay(corners, qhull_options="QJ Pp").simplices]
    volumes = np.abs(np.linalg.det(cells[:, 1:] - cells[:, :1]))
    middle = volumes @ cells.mean(axis=1) / volumes.sum()
    return ConvexHull(corners).volume, np.append(middle, 1 - middle.sum())


ORDERED = np.eye(4)[:-1] - np.eye(4)[1:]
CHAIN = WeightRules(order=tuple(pairwise(range(4))))


@pytest.mark.parametrize(("rules", "order"), [(WeightRules(), ORDERED[:0]), (CHAIN, ORDERED)])
def test_first_ranks_and_central_weights_are_exact_volumes(rules, order) -> None:
    found = acceptability(V[None], weight_samples(4, COUNT, rules))
    whole = 1 / factorial(3) / (factorial(4) if len(order) else 1)
    for a in range(3):
        walls = np.vstack([V[:, [a]].T - np.delete(V, a, axis=1).T, order])
        # Strictly inside the region, which a mean of some of its points is.
        volume, middle = region(walls, found.central_weights[a])
        share = volume / whole
        assert found.rank_shares[a, 0] == pytest.approx(share, abs=NEAR)
        if not len(order):
            assert share == pytest.approx(float(FIRST[a]), abs=1e-9)
        # Four standard errors of a mean weight, whose deviation is below one half.
        assert found.central_weights[a] == pytest.approx(
            middle, abs=4 * 0.25 / (COUNT * share) ** 0.5
        )
    assert found.confidence.tolist() == [1, 1, 1]


@pytest.mark.parametrize(
    ("n", "printed"),
    [
        (3, (0.6111, 0.2778, 0.1111)),
        (4, (0.5208, 0.2708, 0.1458, 0.0625)),
        (5, (0.4567, 0.2567, 0.1567, 0.0900, 0.0400)),
    ],
)
def test_ordered_weights_centre_on_rank_order_centroid_barron_barrett_1996(n, printed) -> None:
    """Barron and Barrett (1996), Management Science 42(11), 1515-1523, from memory."""
    rules = WeightRules(order=tuple(pairwise(range(n))))
    found = weight_samples(n, COUNT, rules).mean(axis=0)
    assert found == pytest.approx(printed, abs=4 * 0.2 / COUNT**0.5)
    exact = [sum(1 / i for i in range(k, n + 1)) / n for k in range(1, n + 1)]
    assert exact == pytest.approx(printed, abs=5e-5 + 1e-9)


def below(limits: Sequence[float]) -> float:
    """Volume of even weightings with each weight below its limit, the simplex being 1.

    Inclusion and exclusion of the corners cut off: De Moivre's formula, in Feller (1971), An
    Introduction to Probability Theory and its Applications II, section I.9, equation 9.7.
    """
    n = len(limits)
    return sum(
        (-1) ** k * max(0.0, 1 - sum(cut)) ** (n - 1)
        for k in range(n + 1)
        for cut in combinations(limits, k)
    )


# Loose limits are met by throwing away, tight ones by random walks.
@pytest.mark.parametrize(("n", "limit"), [(3, 0.5), (6, 0.4), (6, 0.2), (10, 0.15)])
def test_bounded_weights_are_even_over_what_the_bounds_leave(n: int, limit: float) -> None:
    rules = WeightRules(high=dict.fromkeys(range(n), limit))
    found = weight_samples(n, COUNT, rules)
    for part in (0.2, 0.5, 0.8):
        x = part * limit
        exact = below([x] + [limit] * (n - 1)) / below([limit] * n)
        # Over all factors, walks being a little alike; then of each by itself.
        assert (found <= x).mean() == pytest.approx(exact, abs=NEAR)
        assert (found <= x).mean(axis=0) == pytest.approx(exact, abs=2 * NEAR)


def test_low_bounds_and_fixed_shares_leave_a_smaller_simplex() -> None:
    rules = WeightRules(fixed={0: 0.3}, low={1: 0.1, 2: 0.2})
    found = weight_samples(4, COUNT, rules)
    # What is left over, 0.4, is shared evenly: each part is 0.4 times a Beta(1, 2).
    for i, low in ((1, 0.1), (2, 0.2), (3, 0.0)):
        for part in (0.1, 0.3, 0.6):
            exact = 1 - (1 - part) ** 2
            assert (found[:, i] <= low + 0.4 * part).mean() == pytest.approx(exact, abs=NEAR)


@pytest.mark.parametrize("walks", [False, True])
@pytest.mark.parametrize(
    ("n", "order"),
    [
        (4, ((0, 2), (1, 2), (1, 3))),
        (4, ((0, 1), (0, 2), (1, 3), (2, 3))),
        (5, ((0, 1), (1, 2), (3, 4))),
        (4, ((2, 1), (1, 3))),
    ],
)
def test_every_order_the_rules_allow_is_as_likely(n, order, walks, monkeypatch) -> None:
    """Linear extensions of a partial order cut its weights into equal parts (Stanley 1986)."""
    if walks:
        monkeypatch.setattr(simplex, "_WORTHWHILE", 2.0)
    found = weight_samples(n, COUNT, WeightRules(order=order))
    allowed = [
        line
        for line in permutations(range(n))
        if all(line.index(i) < line.index(j) for i, j in order)
    ]
    lines, counts = np.unique(np.argsort(-found, axis=1), axis=0, return_counts=True)
    assert sorted(map(tuple, lines.tolist())) == sorted(allowed)
    assert counts / COUNT == pytest.approx(1 / len(allowed), abs=NEAR)


@pytest.mark.parametrize("walks", [False, True])
def test_walks_and_sifting_draw_the_same_weightings(walks, monkeypatch) -> None:
    """Two fixed and one pair ordered: half of each order, Beta(1, 2) and Beta(1, 1) shares."""
    if walks:
        monkeypatch.setattr(simplex, "_WORTHWHILE", 2.0)
    found = weight_samples(4, COUNT, WeightRules(fixed={0: 0.25, 1: 0.25}, order=((2, 3),)))
    # The heavier of two that share one half evenly is even between a quarter and a half.
    for part in (0.25, 0.5, 0.75):
        assert (found[:, 2] <= 0.25 + 0.25 * part).mean() == pytest.approx(part, abs=NEAR)


@pytest.mark.parametrize("walks", [False, True])
def test_a_chain_with_a_bound_on_its_heaviest_is_even(walks, monkeypatch) -> None:
    """Heaviest of three, at least x: by inclusion and exclusion, the largest of even spacings.

    P(largest spacing > x) = 3 (1 - x)^2 - 3 (1 - 2x)^2 while 1/3 <= x <= 1/2, then 3 (1 - x)^2:
    David and Nagaraja (2003), Order Statistics, section 6.4.
    """
    if walks:
        monkeypatch.setattr(simplex, "_WORTHWHILE", 2.0)
    rules = WeightRules(low={0: 0.4}, order=((0, 1), (1, 2)))
    found = weight_samples(3, COUNT, rules)[:, 0]

    def above(x: float) -> float:
        return 3 * (1 - x) ** 2 - 3 * max(0.0, 1 - 2 * x) ** 2

    for x in (0.45, 0.5, 0.6, 0.75):
        assert (found > x).mean() == pytest.approx(above(x) / above(0.4), abs=NEAR)


def test_ranks_of_like_alternatives_are_even() -> None:
    """By symmetry: independent scores of one distribution give every rank alike."""
    scores = np.random.default_rng(2).random((COUNT, 5))
    assert rank_acceptability(scores) == pytest.approx(0.2, abs=NEAR)
