"""Promises of common weights, concordance and regrets."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays
from numpy.typing import NDArray

from model.decision.group import (
    FLOOR,
    consensus,
    departures,
    disagreement,
    distances,
    floored,
    kendall_w,
    regrets,
    variances,
)

LEFT_OUT = np.nan
weight = st.one_of(st.just(0.0), st.integers(1, 100).map(float))


@st.composite
def ballots(draw: st.DrawFn) -> NDArray[np.float64]:
    """Weights (ballot, factor), zeros among them, each ballot with some weight."""
    shape = draw(st.tuples(st.integers(1, 6), st.integers(2, 6)))
    weights = draw(arrays(float, shape, elements=weight))
    weights[weights.sum(axis=1) == 0, 0] = 1.0
    return weights


@given(ballots(), st.randoms(use_true_random=False))
def test_the_order_of_ballots_changes_no_common_weight(weights, random) -> None:
    order = random.sample(range(len(weights)), len(weights))
    assert consensus(weights[order]) == pytest.approx(consensus(weights), abs=1e-12)
    assert disagreement(weights[order]) == pytest.approx(disagreement(weights), abs=1e-9)


@given(ballots())
def test_common_weights_are_shares(weights) -> None:
    common = consensus(weights)
    assert common.sum() == pytest.approx(1)
    assert (common >= 0).all()


@given(ballots(), st.integers(2, 50))
def test_the_scale_of_a_ballot_counts_for_nothing(weights, scale) -> None:
    scaled = weights.copy()
    scaled[0] *= scale
    assert consensus(scaled) == pytest.approx(consensus(weights), abs=1e-12)


@given(ballots(), st.integers(0, 5))
def test_a_factor_weighed_more_by_one_weighs_no_less_in_common(weights, factor) -> None:
    factor %= weights.shape[1]
    dearer = weights.copy()
    dearer[0, factor] += 50
    assert consensus(dearer)[factor] >= consensus(weights)[factor] - 1e-12


def test_ballots_of_one_mind_keep_their_weights() -> None:
    shares = np.array([0.5, 0.3, 0.2, 0.0])
    assert consensus([shares] * 3) == pytest.approx(shares, abs=1e-12)
    assert not disagreement([shares] * 3).any()


def test_one_zero_does_not_wipe_a_factor_out() -> None:
    common = consensus([(1, 0), (1, 1), (1, 1)])
    assert 0.1 < common[1] < 0.5


def test_a_zero_is_taken_as_the_floor_of_an_equal_share() -> None:
    assert floored([(1, 0), (1, 1)])[0].tolist() == [1, FLOOR / 2]


def test_a_factor_that_nobody_weighs_has_no_common_weight() -> None:
    assert consensus([(1, 0, 1), (3, 0, 1)])[1] == 0
    assert consensus([(1, 0, 1), (3, LEFT_OUT, 1)])[1] == 0


def test_what_a_ballot_leaves_out_is_decided_by_the_others() -> None:
    common = consensus([(4, 2, LEFT_OUT), (4, 2, 1), (4, 2, 1)])
    assert common == pytest.approx(np.array([4, 2, 1]) / 7, abs=1e-12)
    assert not disagreement([(4, 2, LEFT_OUT), (4, 2, 1)]).any()


def test_ballots_that_share_one_factor_are_joined_by_it() -> None:
    assert consensus([(2, 1, LEFT_OUT), (LEFT_OUT, 1, 3)]) == pytest.approx(
        np.array([2, 1, 3]) / 6, abs=1e-12
    )


def test_distance_runs_over_the_factors_that_both_weigh() -> None:
    assert distances([(4, 2, LEFT_OUT), (2, 1, 7)])[0, 1] == pytest.approx(0, abs=1e-12)


def test_disagreement_rests_on_the_factor_that_alone_differs() -> None:
    shares = disagreement([(1, 1, 1, 1), (1, 1, 9, 1), (1, 1, 3, 1)])
    assert shares.argmax() == 2
    assert shares.sum() == pytest.approx(1)


@given(ballots())
def test_variances_add_up_to_the_mean_squared_distance_from_the_consensus(weights) -> None:
    total = np.nansum(departures(weights) ** 2, axis=1).mean()
    assert variances(weights).sum() == pytest.approx(total, abs=1e-9)


def test_a_ballot_without_weight_is_refused_in_words() -> None:
    with pytest.raises(ValueError, match="a ballot without any"):
        consensus([(1, 2), (0, 0)])


scores = arrays(float, st.tuples(st.integers(2, 6), st.integers(2, 6)), elements=weight)


@given(scores)
def test_concordance_is_between_none_and_full_and_blind_to_direction(values) -> None:
    w = kendall_w(values).w
    assert np.isnan(w) or -1e-12 <= w <= 1 + 1e-12
    assert kendall_w(-values).w == pytest.approx(w, abs=1e-12, nan_ok=True)


@given(scores)
def test_judges_of_one_mind_are_fully_concordant(values) -> None:
    w = kendall_w([values[0]] * 3).w
    assert w == pytest.approx(1) or (np.isnan(w) and np.ptp(values[0]) == 0)


def test_opposed_judges_are_not_concordant() -> None:
    found = kendall_w([(1, 2, 3, 4), (4, 3, 2, 1)])
    assert (found.w, found.correlation) == (0, -1)


def test_there_is_no_concordance_without_items_to_order() -> None:
    assert np.isnan(kendall_w(np.empty((3, 0))).w)
    assert np.isnan(kendall_w([(1,), (1,)]).w)


def test_worst_regret_is_the_most_that_any_ballot_loses() -> None:
    found = regrets([(0.9, 0.8, np.nan), (0.2, 0.7, np.nan)])
    assert found == pytest.approx([0.5, 0.1, np.nan], nan_ok=True)


def test_regret_counts_against_what_a_ballot_could_have_had() -> None:
    assert regrets([(0.9, 0.8)], best=[0.85]) == pytest.approx([0, 0.05])
