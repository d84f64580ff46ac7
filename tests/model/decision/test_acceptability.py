"""Promises of rank shares, central weights and confidence."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays
from numpy.typing import NDArray

from model.decision import acceptability as module
from model.decision.acceptability import acceptability, rank_acceptability
from model.decision.power_mean import box_cox
from model.decision.simplex import weight_samples
from model.decision.weights import moved

from .cases import Decision, decisions, exponents

NAN = np.nan
scores = arrays(
    float,
    st.tuples(st.integers(1, 6), st.integers(1, 6)),
    elements=st.one_of(st.integers(-3, 3).map(float), st.just(NAN)),
)


@given(scores)
def test_shares_add_up_to_how_often_an_alternative_may_stand(scores: NDArray) -> None:
    shares = rank_acceptability(scores)
    assert shares.min() >= 0
    assert shares.sum(axis=1) == pytest.approx((~np.isnan(scores)).mean(axis=0))
    standing = (~np.isnan(scores)).sum(axis=1)
    by_rank = [(standing > rank).mean() for rank in range(scores.shape[1])]
    assert shares.sum(axis=0) == pytest.approx(by_rank)


def test_those_level_in_a_draw_share_their_ranks() -> None:
    shares = rank_acceptability([[3.0, 5.0, 3.0, NAN]])
    assert shares == pytest.approx(
        np.array([[0, 0.5, 0.5, 0], [1, 0, 0, 0], [0, 0.5, 0.5, 0], [0, 0, 0, 0]])
    )


def test_rounding_does_not_part_those_that_are_level() -> None:
    assert rank_acceptability([[0.1 + 0.2, 0.3]])[0] == pytest.approx([0.5, 0.5])
    assert rank_acceptability([[0.3 + 1e-9, 0.3]])[0] == pytest.approx([1, 0])


@given(decisions(), exponents, st.randoms(use_true_random=False))
def test_alternatives_in_another_order_stand_the_same(decision: Decision, p, random) -> None:
    u = box_cox(decision.v, p)[None]
    w = weight_samples(len(decision.w), 40)
    order = random.sample(range(u.shape[2]), u.shape[2])
    here, there = acceptability(u, w), acceptability(u[..., order], w)
    # 1e-9: at low exponents values are so large that sums in another order round differently
    assert there.rank_shares == pytest.approx(here.rank_shares[order], abs=1e-9)
    assert there.central_weights == pytest.approx(
        here.central_weights[order], abs=1e-9, nan_ok=True
    )
    assert there.confidence == pytest.approx(here.confidence[order], abs=1e-9)


@given(decisions(alternatives=2), exponents, st.integers(0, 4))
def test_a_dearer_factor_never_costs_the_alternative_better_in_it_a_win(
    decision: Decision, p: float, k: int
) -> None:
    k %= len(decision.w)
    u = box_cox(decision.v, p)
    better = int(u[k].argmax())
    before = weight_samples(len(decision.w), 30)
    after = np.array([moved(w, k, w[k] + (1 - w[k]) / 3) for w in before])
    wins = [acceptability(u[None], w).rank_shares[better, 0] for w in (before, after)]
    assert wins[1] >= wins[0] - 1e-9


@given(decisions(), exponents)
def test_sure_measures_make_whoever_ever_leads_alone_sure(decision: Decision, p: float) -> None:
    u = box_cox(np.unique(decision.v, axis=1), p)[None]
    found = acceptability(u, weight_samples(len(decision.w), 60))
    leads = found.rank_shares[:, 0] > 0
    assert np.isfinite(found.central_weights).all(axis=1).tolist() == leads.tolist()
    # Weights that put one first are a convex set, so their mean is among them.
    assert (found.confidence[leads] > 0).all()
    assert (found.confidence[~leads] == 0).all()


def test_a_ruled_out_alternative_takes_no_rank_and_no_weights() -> None:
    u = np.array([[[0.0, NAN, -1.0], [-1.0, 0.0, -2.0]]])
    found = acceptability(u, weight_samples(2, 100))
    assert found.rank_shares.tolist() == [[1, 0, 0], [0, 0, 0], [0, 1, 0]]
    assert np.isnan(found.central_weights[1:]).all()
    assert found.confidence.tolist() == [1, 0, 0]


def test_confidence_counts_the_draws_of_the_measures() -> None:
    # One factor, so that weights say nothing: first leads in 3 of 4 draws.
    u = np.array([[[2.0, 1.0]], [[2.0, 1.0]], [[2.0, 1.0]], [[0.0, 1.0]]])
    found = acceptability(u, np.ones((4, 1)))
    assert found.confidence.tolist() == [0.75, 0.25]
    assert found.rank_shares[:, 0].tolist() == [0.75, 0.25]


def test_twins_are_each_half_a_time_first_with_the_same_weights() -> None:
    u = np.array([[[0.0, -1.0, -1.0], [-1.0, 0.0, 0.0]]])
    w = weight_samples(2, 1000)
    found = acceptability(u, w)
    wins = w[:, 1] > 0.5
    assert found.rank_shares[1:, 0] == pytest.approx(wins.mean() / 2)
    assert found.central_weights[1:] == pytest.approx(np.tile(w[wins].mean(axis=0), (2, 1)))
    assert found.confidence == pytest.approx([1, 0.5, 0.5])


def test_where_no_alternative_may_stand_none_ranks() -> None:
    found = acceptability(np.full((1, 2, 3), NAN), weight_samples(2, 10))
    assert not found.rank_shares.any()
    assert not found.confidence.any()


def test_draws_that_do_not_match_are_told() -> None:
    with pytest.raises(ValueError, match="found 3 of the measures and 4 of the weights"):
        acceptability(np.zeros((3, 2, 2)), np.full((4, 2), 0.5))


def test_draws_by_parts_give_what_they_give_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    rng = np.random.default_rng(3)
    u, w = rng.random((50, 4, 6)), weight_samples(4, 50)
    whole = acceptability(u, w)
    monkeypatch.setattr(module, "_CHUNK", 40)
    parts = acceptability(u, w)
    assert parts.rank_shares == pytest.approx(whole.rank_shares)
    assert parts.central_weights == pytest.approx(whole.central_weights, nan_ok=True)
    assert parts.confidence == pytest.approx(whole.confidence)
