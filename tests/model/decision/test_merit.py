"""Promises of the scores, the leaders and the order of merit."""

from random import Random

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from model.decision import merit, weights
from model.decision.power_mean import box_cox, inverse_box_cox, power_mean

from .cases import Decision, decisions, exponents

P = -0.7


class Grid:
    """Four factors, five options, nine places; a third ruled out, one place wholly, one outside."""

    def __init__(self, seed: int = 3) -> None:
        rng = np.random.default_rng(seed)
        self.v = rng.uniform(0.05, 1, (4, 5, 9))
        self.v[:, :, 8] = np.nan
        self.ruled_out = rng.random((5, 9)) < 0.3
        self.ruled_out[:, 0] = True
        self.ruled_out[:, 1] = False
        self.w = weights.normalised(rng.random(4))

    def scores(self, p: float = P) -> NDArray:
        """Linear scores by the cube."""
        return merit.linear_scores(merit.cube(list(self.v), p, merit.bars(self.ruled_out)), self.w)

    def displayed(self, p: float = P) -> NDArray:
        """Displayed scores by the definition, NaN where ruled out."""
        return np.where(self.ruled_out, np.nan, power_mean(self.v, self.w, p))


@pytest.mark.parametrize("p", [1.0, 0.0, -1.0, -0.7, -6.0])
def test_scores_are_the_power_means_of_the_desirabilities(p: float) -> None:
    grid = Grid()
    shown = inverse_box_cox(grid.scores(p), p)
    np.testing.assert_allclose(shown, grid.displayed(p), atol=3e-6)


def test_the_leader_is_the_best_that_is_allowed() -> None:
    grid = Grid()
    shown = grid.displayed()
    option, top = merit.best(grid.scores())
    assert option[1:8].tolist() == np.nanargmax(shown[:, 1:8], axis=0).tolist()
    np.testing.assert_allclose(inverse_box_cox(top, P)[1:8], np.nanmax(shown[:, 1:8], axis=0), 1e-5)


def test_a_ruled_out_option_never_leads_however_good() -> None:
    v = np.full((2, 2, 1), 0.1)
    v[:, 0] = 1
    u = merit.cube(list(v), 1, merit.bars(np.array([[True], [False]])))
    assert merit.leaders(merit.linear_scores(u, [0.5, 0.5]), 1).option.tolist() == [1]


def test_a_rule_out_is_not_averaged_away_by_any_weights() -> None:
    u = merit.cube([np.ones((1, 1))] * 3, 1, merit.bars(np.array([[True]])))
    for w in ([1, 0, 0], [0, 1, 0], [0, 0, 1], [0.2, 0.3, 0.5]):
        assert np.isnan(merit.linear_scores(u, w)).all()


def test_where_all_is_ruled_out_or_outside_nobody_leads() -> None:
    led = merit.leaders(Grid().scores(), P)
    assert led.option[[0, 8]].tolist() == [-1, -1]
    assert np.isnan(led.score[[0, 8]]).all()
    assert led.tied[[0, 8]].tolist() == [0, 0]
    assert merit.best(Grid().scores())[0][[0, 8]].tolist() == [-1, -1]


def test_one_option_that_is_not_known_does_not_hide_the_others() -> None:
    scores = np.array([[np.nan], [-2.0], [-1.0]])
    assert merit.best(scores)[0].tolist() == [2]


def test_equal_options_are_told_as_ties() -> None:
    scores = box_cox(np.array([[0.5, 0.50], [0.5, 0.49], [0.4, 0.485]]), P)
    assert merit.leaders(scores, P, margin=0).tied.tolist() == [2, 1]
    assert merit.leaders(scores, P, margin=0.0101).tied.tolist() == [2, 2]
    assert merit.leaders(scores, P, margin=1).tied.tolist() == [3, 3]


def test_many_places_are_led_as_each_by_itself() -> None:
    rng = np.random.default_rng(5)
    scores = np.log(rng.uniform(0.02, 1, (300, 2500)))
    led = merit.leaders(scores, 0)
    assert led.option.tolist() == scores.argmax(axis=0).tolist()
    np.testing.assert_allclose(led.score, np.exp(scores.max(axis=0)))


def test_what_is_not_known_of_a_factor_without_weight_harms_nobody() -> None:
    u = np.array([[[-1.0]], [[np.nan]], [[-2.0]], [[-np.inf]]])
    assert merit.linear_scores(u, [0.5, 0, 0.5, 0]).tolist() == [[-1.5]]


def test_factors_that_ignore_the_option_or_the_place_are_spread_out() -> None:
    by_place, by_option = np.array([[0.2, 0.4, 0.8]]), np.array([[0.5], [1.0]])
    u = merit.cube([by_place, by_option], 1, merit.bars(np.zeros((2, 3), bool)))
    np.testing.assert_allclose(u[0], np.broadcast_to(by_place - 1, (2, 3)), rtol=1e-6)
    np.testing.assert_allclose(u[1], np.broadcast_to(by_option - 1, (2, 3)), rtol=1e-6)


def test_a_cube_built_in_old_memory_is_the_same() -> None:
    grid = Grid()
    barred = merit.bars(grid.ruled_out)
    old = merit.cube(list(grid.v), 1, barred)
    again = merit.cube(list(grid.v), P, barred, out=old)
    assert again is old
    np.testing.assert_array_equal(again, merit.cube(list(grid.v), P, barred))


def test_a_tie_shares_its_rank_and_the_next_rank_counts_it() -> None:
    scores = np.array([[0.70], [0.90], [0.895], [0.2]])
    assert merit.order(scores, margin=0.01)[:, 0].tolist() == [3, 1, 1, 4]


def test_ties_do_not_chain_beyond_the_margin_of_their_first() -> None:
    scores = np.array([[0.900], [0.893], [0.886]])
    assert merit.order(scores, margin=0.01)[:, 0].tolist() == [1, 1, 3]


def test_what_is_ruled_out_has_no_rank() -> None:
    scores = np.array([[np.nan, np.nan], [0.5, np.nan]])
    assert merit.order(scores).tolist() == [[0, 0], [1, 0]]


def test_order_runs_over_options_over_places_or_over_all_pairs() -> None:
    scores = np.array([[0.9, 0.1], [0.5, 0.6]])
    assert merit.order(scores, axis=0).tolist() == [[1, 2], [2, 1]]
    assert merit.order(scores, axis=1).tolist() == [[1, 2], [2, 1]]
    assert merit.order(scores, axis=None).tolist() == [[1, 4], [3, 2]]


@given(decisions(), exponents, st.randoms(use_true_random=False))
def test_the_list_s_order_of_options_changes_nothing(d: Decision, p: float, random: Random) -> None:
    shuffled = random.sample(range(d.v.shape[1]), d.v.shape[1])
    ranks = merit.order(power_mean(d.v, d.w, p)[:, None])[:, 0]
    again = merit.order(power_mean(d.v[:, shuffled], d.w, p)[:, None])[:, 0]
    assert again.tolist() == ranks[shuffled].tolist()


@given(decisions(), exponents, st.floats(0, 1), st.floats(0, 1))
def test_more_weight_on_a_factor_never_sets_back_the_best_at_it(
    d: Decision, p: float, s: float, t: float
) -> None:
    champion = int(d.v[0].argmax())
    behind = []
    for share in sorted((s, t)):
        score = power_mean(d.v, weights.moved(d.w, 0, share), p)
        behind.append((score > score[champion] + 1e-9).sum())
    assert behind[1] <= behind[0]
