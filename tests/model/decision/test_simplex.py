"""Promises of weightings drawn at random."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.decision import simplex
from model.decision.simplex import WeightRules, weight_samples, weights_near
from model.decision.weight_rules import clash

N = 5
share = st.integers(0, 10).map(lambda k: k / 20)
factor = st.integers(0, N - 1)
rules = st.builds(
    WeightRules,
    fixed=st.dictionaries(factor, share, max_size=2),
    low=st.dictionaries(factor, share, max_size=2),
    high=st.dictionaries(factor, share, max_size=2),
    order=st.lists(st.tuples(factor, factor), max_size=4).map(tuple),
)


@settings(deadline=None, max_examples=60)
@given(rules)
def test_every_weighting_keeps_every_rule_or_the_clash_is_named(rules: WeightRules) -> None:
    named = clash(N, rules)
    if named:
        with pytest.raises(ValueError, match=r"mend by") as error:
            weight_samples(N, 10, rules)
        assert all(words in str(error.value) for words in named)
        return
    w = weight_samples(N, 50, rules)
    assert w.shape == (50, N)
    assert w.sum(axis=1) == pytest.approx(1, abs=1e-7)
    assert w.min() >= 0
    for i, x in rules.fixed.items():
        assert w[:, i] == pytest.approx(x, abs=1e-7)
    for i, x in rules.low.items():
        assert w[:, i].min() >= x - 1e-7
    for i, x in rules.high.items():
        assert w[:, i].max() <= x + 1e-7
    for i, j in rules.order:
        assert (w[:, i] >= w[:, j] - 1e-7).all()


def test_only_the_rules_that_clash_are_named() -> None:
    rules = WeightRules(fixed={0: 0.6}, low={1: 0.5, 2: 0.01}, order=((0, 3),))
    assert clash(4, rules) == ("factor 1 fixed at 60 %", "factor 2 at least 50 %")
    names = ("frost", "shade", "wind", "soil")
    with pytest.raises(ValueError, match="frost fixed at 60 %, shade at least 50 %; expected"):
        weight_samples(4, 10, rules, names=names)


@pytest.mark.parametrize(
    "rules",
    [
        WeightRules(fixed={0: 0.2, 1: 0.3}),
        WeightRules(high={0: 0.4, 1: 0.4}),
        WeightRules(order=((0, 1), (1, 0)), low={0: 0.6}),
        WeightRules(order=((0, 1),), fixed={0: 0.2}, low={1: 0.3}),
    ],
)
def test_shares_that_cannot_make_a_whole_clash(rules: WeightRules) -> None:
    n = 2 if not rules.order else 3
    assert clash(n, rules)


@pytest.mark.parametrize(
    ("rules", "words"),
    [
        (WeightRules(low={7: 0.1}), "found factor number 7, expected 0 to 2"),
        (WeightRules(order=((0, -1),)), "found factor number -1, expected 0 to 2"),
        (WeightRules(high={1: 30}), "high, factor 2: found a share of 30, expected 0 to 1"),
        (WeightRules(fixed={0: float("nan")}), "found a share of nan"),
    ],
)
def test_a_rule_that_cannot_be_meant_is_told(rules: WeightRules, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        weight_samples(3, 10, rules)


TIGHT = WeightRules(high=dict.fromkeys(range(10), 0.13))  # by random walks


def test_chains_are_sorted_and_need_no_walks(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delattr(simplex, "points_within")
    chain = (4, 1, 7, 0, 2, 6, 3, 5)
    found = weight_samples(10, 500, WeightRules(fixed={8: 0.2}, order=tuple(pairwise(chain))))
    assert (np.diff(found[:, chain], axis=1) <= 0).all()
    assert (found[:, 8] == 0.2).all()


@pytest.mark.parametrize("rules", [WeightRules(), TIGHT])
def test_a_seed_draws_the_same_weightings_again(rules: WeightRules) -> None:
    assert np.array_equal(weight_samples(10, 300, rules, 4), weight_samples(10, 300, rules, 4))
    assert not np.array_equal(weight_samples(10, 300, rules, 4), weight_samples(10, 300, rules, 5))


@given(st.integers(2, 8), st.integers(1, 100))
def test_weights_near_some_scatter_about_them(n: int, concentration: int) -> None:
    w = np.arange(n) / np.arange(n).sum()  # the first has none
    near = weights_near(w, 4000, concentration)
    off = np.sqrt(w * (1 - w) / (concentration + 1))  # sd of a Dirichlet share
    assert near.sum(axis=1) == pytest.approx(1)
    assert (near[:, 0] == 0).all()
    assert (np.abs(near.mean(axis=0) - w) <= 6 * off / np.sqrt(4000) + 1e-12).all()
    assert near.std(axis=0) == pytest.approx(off, rel=0.2)
