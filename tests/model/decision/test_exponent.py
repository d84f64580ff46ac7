"""Promises of the tipping points of the trade-off."""

import numpy as np
from hypothesis import given, settings

from model.decision.exponent import exponent_tipping
from model.decision.power_mean import HIGHEST_EXPONENT, LOWEST_EXPONENT, power_mean

from .cases import Decision, decisions


@given(decisions())
@settings(max_examples=25, deadline=None)
def test_on_the_way_from_end_to_end_the_leader_named_leads(d: Decision) -> None:
    ends, leaders = exponent_tipping(d.v, d.w)
    for p in np.arange(-10, 1.01, 0.05):
        k = min(np.searchsorted(ends, p, side="right") - 1, len(leaders) - 1)
        score = power_mean(d.v, d.w, p)
        assert score[leaders[k]] >= score.max() - 1e-9


@given(decisions())
@settings(max_examples=25, deadline=None)
def test_where_the_lead_changes_the_two_are_level(d: Decision) -> None:
    ends, leaders = exponent_tipping(d.v, d.w)
    for p, before, after in zip(ends[1:-1], leaders[:-1], leaders[1:], strict=True):
        score = power_mean(d.v, d.w, p)
        np.testing.assert_allclose(score[before], score[after], atol=1e-9)


def test_a_leader_better_at_everything_leads_at_every_exponent() -> None:
    ends, leaders = exponent_tipping([[0.5, 0.4], [0.9, 0.8]], [0.5, 0.5])
    assert ends.tolist() == [LOWEST_EXPONENT, HIGHEST_EXPONENT]
    assert leaders.tolist() == [0]


def test_what_is_ruled_out_never_leads() -> None:
    assert exponent_tipping([[1.0, 0.4]], [1.0], [True, False]).leaders.tolist() == [1]
    assert exponent_tipping([[1.0, 0.4]], [1.0], [True, True]).leaders.tolist() == [-1]


def test_a_third_that_leads_between_two_is_found_within_one_step() -> None:
    v = [[1.0, 0.75, 0.5], [0.3, 0.42, 0.5]]
    fine = exponent_tipping(v, [0.5, 0.5])
    coarse = exponent_tipping(v, [0.5, 0.5], step=11)
    assert coarse.leaders.tolist() == fine.leaders.tolist() == [2, 1, 0]
    np.testing.assert_allclose(coarse.ends, fine.ends, atol=1e-9)
