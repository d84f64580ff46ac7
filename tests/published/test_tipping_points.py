"""Tipping points against a published sensitivity analysis, exact fractions and brute force."""

from fractions import Fraction
from itertools import pairwise

import numpy as np
import pytest

from model.decision.exponent import exponent_tipping
from model.decision.power_mean import box_cox, power_mean
from model.decision.tipping import envelope, stay
from model.decision.weights import block_moved, normalised

pytestmark = pytest.mark.published

# Invented example, one column an alternative A, B, C; what it must give is worked out below in
# exact fractions or by brute force.
V = np.array([(0.9, 0.4, 0.5, 0.7), (0.5, 0.8, 0.6, 0.6), (0.3, 0.6, 0.9, 0.8)]).T
W = np.array([0.4, 0.3, 0.2, 0.1])
A, B, C = range(3)

# Triantaphyllou and Sanchez (1997), Decision Sciences 28(1), 151-194, example of the weighted sum
# model, from memory; columns of the matrix and the weights sum to 1, and the final preferences
# printed there follow from them.
STUDY = np.array(
    [
        (0.3088, 0.2897, 0.3867, 0.1922),
        (0.2163, 0.3458, 0.1755, 0.6288),
        (0.4509, 0.2473, 0.1194, 0.0575),
        (0.0240, 0.1172, 0.3184, 0.1215),
    ]
).T
STUDY_WEIGHTS = np.array([0.3277, 0.3058, 0.2876, 0.0790])


def _exact_crossing(a: int, b: int, k: int) -> Fraction:
    """Share of factor k at which two alternatives' weighted sums are level, in fractions."""
    v = [[Fraction(str(x)) for x in row] for row in V]
    w = [Fraction(str(x)) for x in W]
    rest = [sum(w[j] * v[j][i] for j in range(4) if j != k) / (1 - w[k]) for i in (a, b)]
    return (rest[1] - rest[0]) / ((v[k][a] - rest[0]) - (v[k][b] - rest[1]))


def test_preferences_triantaphyllou_sanchez_1997() -> None:
    printed = [0.3162, 0.2768, 0.2621, 0.1449]
    found = power_mean(STUDY, normalised(STUDY_WEIGHTS), 1)
    assert found == pytest.approx(printed, abs=2e-4)  # the rounding of matrix and weights


@pytest.mark.parametrize(("k", "rival"), [(0, 2), (2, 1), (3, 1)])
def test_smallest_change_that_loses_the_lead_triantaphyllou_sanchez_1997(
    k: int, rival: int
) -> None:
    """Their theorem 1: weight k less delta = (P_j - P_i) / (a_jk - a_ik), then all normalised."""
    preference = STUDY_WEIGHTS @ STUDY
    delta = (preference[rival] - preference[0]) / (STUDY[k, rival] - STUDY[k, 0])
    changed = STUDY_WEIGHTS.copy()
    changed[k] -= delta
    here = stay(STUDY, STUDY_WEIGHTS, np.arange(4) == k)
    point, taker = (here.above, here.high)[::-1] if delta < 0 else (here.low, here.below)
    assert taker == rival
    assert point == pytest.approx(changed[k] / changed.sum(), abs=1e-4)


@pytest.mark.parametrize(
    ("k", "fractions", "leaders"),
    [
        (0, [Fraction(1, 7), Fraction(13, 37)], [C, B, A]),
        (1, [Fraction(15, 43)], [A, B]),
        (2, [Fraction(17, 49)], [A, C]),
        (3, [Fraction(10, 19)], [A, C]),
    ],
)
def test_whole_slider_in_exact_fractions(k: int, fractions: list, leaders: list) -> None:
    found = envelope(V, W, np.arange(4) == k)
    assert [_exact_crossing(a, b, k) for a, b in pairwise(leaders)] == fractions
    assert found.ends[1:-1] == pytest.approx([float(f) for f in fractions], abs=1e-14)
    assert found.leaders.tolist() == leaders


@pytest.mark.parametrize("p", [1, 0, -1, -5])
@pytest.mark.parametrize("members", [[0], [1], [2], [3], [0, 1], [1, 3], [0, 1, 2]])
def test_whole_slider_against_brute_force(p: float, members: list[int]) -> None:
    """Scores by their definition at 10 001 positions: the leader changes where we say it does."""
    block = np.isin(np.arange(4), members)
    shares = np.linspace(0, 1, 10_001)
    scores = [power_mean(V, block_moved(W, block, share), p) for share in shares]
    leading = np.argmax(scores, axis=1)
    changes = np.flatnonzero(np.diff(leading))
    found = envelope(box_cox(V, p), W, block)
    assert found.leaders.tolist() == [*leading[changes], leading[-1]]
    assert ((shares[changes] <= found.ends[1:-1]) & (found.ends[1:-1] <= shares[changes + 1])).all()


@pytest.mark.parametrize("seed", range(5))
def test_many_factors_and_alternatives_against_brute_force(seed: int) -> None:
    rng = np.random.default_rng(seed)
    v, w = rng.uniform(0.02, 1, (15, 300)), rng.dirichlet(np.ones(15))
    for k in range(15):
        block = np.arange(15) == k
        shares = np.linspace(0, 1, 1001)
        moved = np.array([block_moved(w, block, share) for share in shares])
        leading = np.argmax(moved @ np.log(v), axis=1)
        ends, leaders = envelope(np.log(v), w, block)
        at = np.clip(np.searchsorted(ends, shares, side="right") - 1, 0, len(leaders) - 1)
        level = np.isclose(shares[:, None], ends).any(axis=1)
        assert (leaders[at] == leading)[~level].all()


def test_trade_off_at_which_the_lead_changes_against_brute_force() -> None:
    exponents = np.linspace(-10, 1, 11_001)
    scores = [(W @ V**p) ** (1 / p) if abs(p) > 1e-9 else np.exp(W @ np.log(V)) for p in exponents]
    leading = np.argmax(scores, axis=1)
    (change,) = np.flatnonzero(np.diff(leading))
    ends, leaders = exponent_tipping(V, W)
    assert leaders.tolist() == [B, A]
    assert exponents[change] <= ends[1] <= exponents[change + 1]
    assert ends[1] == pytest.approx(-0.142426, abs=1e-6)
