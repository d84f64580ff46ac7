"""What the outcome hangs on, against shares that can be worked out exactly."""

import numpy as np
import pytest

from model.decision.desirability import Curve
from model.robustness.doubt import Doubt, Subject
from model.robustness.hanging import factor_shares, hanging
from model.robustness.outcome import Judgement, lead, standard_scores
from model.robustness.response import NODES, Response

# The worked example of a linear score: weights, and what each factor's figure is off by (sd). The
# variance shares w^2 s^2 / sum are exact for a linear score; an independent library's estimate of
# the same (SALib 1.6, 8192 draws) is .80610, .16318, .01811, .01278.
WEIGHTS = np.array([0.4, 0.3, 0.2, 0.1])
OFF = np.array([0.10, 0.06, 0.03, 0.05])
SHARES = [0.806045, 0.163224, 0.018136, 0.012594]


def figure(number: int) -> Doubt:
    return Doubt(f"{number}", f"figure {number}", 0.5, 1.0, 1.0, "", True, "", Subject(number))


@pytest.fixture
def linear():
    """One figure a factor, which moves the first of two options and not the other."""
    base = np.stack([np.full(4, 0.54), np.full(4, 0.5)], axis=1)[..., None]
    change = np.zeros((4, NODES.size, 4, 2, 1))
    for number in range(4):
        change[number, :, number, 0, 0] = OFF[number] * NODES
    still = np.zeros((2, 1), dtype=bool)
    flips = np.zeros((4, NODES.size, 2, 1), dtype=bool)
    answer = Response(base, change, still, flips, np.zeros(4, dtype=bool))
    return answer, Judgement((Curve((0.0, 1.0), (0.0, 1.0)),) * 4, WEIGHTS, 1.0)


def test_a_linear_lead_hangs_on_each_figure_by_its_share_of_the_variance(linear):
    table = hanging(*linear, tuple(map(figure, range(4))), 0, 0, 1)
    assert table["doubt"].tolist() == [f"figure {n}" for n in range(4)]
    assert table["lead_alone"].to_numpy() == pytest.approx(SHARES, abs=0.03)
    assert table["lead_together"].to_numpy() == pytest.approx(SHARES, abs=0.03)


def test_the_choice_hangs_on_figures_together_more_than_on_each_alone(linear):
    # whether the leader is best is far from linear: independent library, first order .551 and
    # total .902 for the first figure (SALib); only the order of size is asked for here
    table = hanging(*linear, tuple(map(figure, range(4))), 0, 0, 1)
    assert table["choice_together"][0] > table["choice_alone"][0] + 0.1


def test_factors_share_the_variance_of_a_linear_lead_exactly(linear):
    answer, judged = linear
    measures, ruled = answer.at(0, np.clip(standard_scores(20_000, 4, 2), -2, 2))
    shares = factor_shares(judged.space(measures, ruled), WEIGHTS, 0, 1)
    assert shares.sum() == pytest.approx(1)
    assert shares == pytest.approx(SHARES, abs=0.02)


def test_an_outcome_that_nothing_moves_hangs_on_nothing(linear):
    answer, judged = linear
    still = Response(answer.base, 0 * answer.change, answer.ruled, answer.flips, answer.by_measure)
    assert hanging(still, judged, tuple(map(figure, range(4))), 0, 0, 1).empty
    space = np.zeros((9, 4, 2))
    assert factor_shares(space, WEIGHTS, 0, 1).tolist() == [0, 0, 0, 0]


def test_the_lead_is_over_the_best_of_the_others_and_ruled_out_counts_as_nothing():
    scores = np.array([[0.5, 0.4, 0.6], [np.nan, 0.3, 0.1]])
    assert lead(scores, 0) == pytest.approx([-0.1, -0.3])


def test_draws_are_even_over_each_figures_range_and_the_same_for_the_same_seed():
    z = standard_scores(1000, 3, 5)
    assert (z == standard_scores(1000, 3, 5)).all()
    assert (z != standard_scores(1000, 3, 6)).any()
    # normal table: 15.87 % lie beyond one standard deviation to either side
    assert (z > 1).mean(axis=0) == pytest.approx(0.1587, abs=0.001)
    assert (z < -1).mean(axis=0) == pytest.approx(0.1587, abs=0.001)
