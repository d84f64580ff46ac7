"""Promises of the tipping points: exact, against a slider moved in small steps."""

from random import Random

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from model.decision import tipping, weights
from model.decision.power_mean import box_cox, power_mean

from .cases import Decision, decisions, exponents

ROUNDING = 1e-9


def _scores(d: Decision, members: np.ndarray, share: float, p: float) -> np.ndarray:
    return power_mean(d.v, weights.block_moved(d.w, members, share), p)


@st.composite
def blocks(draw: st.DrawFn) -> tuple[Decision, np.ndarray]:
    d = draw(decisions())
    members = draw(st.lists(st.booleans(), min_size=len(d.w), max_size=len(d.w)))
    return d, np.array(members)


@given(blocks(), exponents)
@settings(deadline=None)
def test_at_every_share_the_envelope_s_leader_leads(block: tuple, p: float) -> None:
    d, members = block
    ends, leaders = tipping.envelope(box_cox(d.v, p), d.w, members)
    for share in np.linspace(0.0001, 0.9999, 41):  # the first and last stretch may be rounding
        leader = leaders[min(np.searchsorted(ends, share, side="right") - 1, len(leaders) - 1)]
        score = _scores(d, members, share, p)
        assert score[leader] >= score.max() - ROUNDING


@given(blocks(), exponents)
@settings(deadline=None)
def test_the_stay_holds_the_present_weight_and_the_present_leader(block: tuple, p: float) -> None:
    d, members = block
    here = tipping.stay(box_cox(d.v, p), d.w, members)
    assert here.low - ROUNDING <= here.now <= here.high + ROUNDING
    score = power_mean(d.v, d.w, p)
    assert score[here.leader] >= score.max() - ROUNDING


@given(blocks(), exponents)
@settings(deadline=None)
def test_at_a_tipping_point_two_are_level_and_beyond_it_the_other_leads(
    block: tuple, p: float
) -> None:
    d, members = block
    here = tipping.stay(box_cox(d.v, p), d.w, members)
    for point, taker, step in ((here.low, here.below, -1e-6), (here.high, here.above, 1e-6)):
        if taker < 0:
            assert point in {0, 1}
            continue
        if min(point, 1 - point) < 1e-6:
            continue  # at low exponents the score may leap here by more than a share can resolve
        level = _scores(d, members, point, p)
        np.testing.assert_allclose(level[taker], level[here.leader], atol=1e-8)
        beyond = _scores(d, members, np.clip(point + step, 0, 1), p)
        assert beyond[taker] >= beyond[here.leader] - 1e-12


@given(decisions(), exponents)
def test_trajectories_are_the_scores_after_the_move(d: Decision, p: float) -> None:
    members = np.arange(len(d.w)) == 0
    t = np.linspace(0, 1, 5)
    lines = tipping.trajectories(box_cox(d.v, p), d.w, members, t, p)
    moved = np.column_stack([_scores(d, members, share, p) for share in t])
    np.testing.assert_allclose(lines, moved, atol=1e-9)


@given(decisions(), exponents, st.randoms(use_true_random=False))
def test_the_list_s_order_of_alternatives_changes_no_tipping_point(
    d: Decision, p: float, random: Random
) -> None:
    shuffled = random.sample(range(d.v.shape[1]), d.v.shape[1])
    u = box_cox(d.v, p)
    ends = tipping.envelope(u, d.w, np.arange(len(d.w)) == 0).ends
    again = tipping.envelope(u[:, shuffled], d.w, np.arange(len(d.w)) == 0).ends
    np.testing.assert_allclose(again, ends, atol=1e-9)


def test_what_is_ruled_out_or_unknown_never_takes_over() -> None:
    u = np.array([[0.5, 1.0, np.nan, 0.6], [0.5, 1.0, 0.2, 0.1]])
    leads = tipping.envelope(u, [0.5, 0.5], [True, False], np.array([False, True, False, False]))
    np.testing.assert_allclose(leads.ends, [0, 0.8, 1])
    assert leads.leaders.tolist() == [0, 3]


def test_where_all_is_ruled_out_nobody_leads() -> None:
    here = tipping.stay(np.ones((2, 2)), [0.5, 0.5], [True, False], [True, True])
    assert (here.leader, here.low, here.high, here.below, here.above) == (-1, 0, 1, -1, -1)


def test_a_factor_equal_for_all_can_overturn_nothing() -> None:
    u = np.array([[0.7, 0.7], [0.2, 0.9]])
    here = tipping.stay(u, [0.5, 0.5], [True, False])
    assert (here.leader, here.low, here.high) == (1, 0, 1)


def test_lines_that_meet_in_one_point_leave_the_steepest() -> None:
    u = np.array([[0.5, 0.7, 0.9], [0.5, 0.3, 0.1]])
    leads = tipping.envelope(u, [0.5, 0.5], [True, False])
    np.testing.assert_allclose(leads.ends, [0, 0.5, 1])
    assert leads.leaders.tolist() == [0, 2]


def test_there_is_one_for_every_factor_or_for_every_family() -> None:
    u = np.log([[0.9, 0.5], [0.4, 0.8], [0.5, 0.6]])
    w = np.array([0.5, 0.3, 0.2])
    assert [t.now for t in tipping.tipping_points(u, w)] == [0.5, 0.3, 0.2]
    families = tipping.tipping_points(u, w, families=[1, 0, 1])
    assert [round(t.now, 12) for t in families] == [0.3, 0.7]


def test_a_lead_gained_however_slowly_is_found() -> None:
    u = np.array([[0.5, 0.5001], [0.5, 0.4999]])
    np.testing.assert_allclose(tipping.envelope(u, [0.5, 0.5], [True, False]).ends, [0, 0.5, 1])
