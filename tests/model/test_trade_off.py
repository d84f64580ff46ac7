"""The chart of the trade-off is that of the order of merit at each exponent."""

import numpy as np
import pytest

from model.decision.power_mean import power_mean
from model.opening import open_study
from model.trade_off import trade_off_chart
from tests.model.demo import DEMO


@pytest.fixture(scope="module")
def study():
    return open_study(DEMO)


def test_scores_are_those_the_study_has_at_that_trade_off(study):
    here, kept = study.here(), study.trade_off
    chart = trade_off_chart(here, study.weights, np.array([-8.0, 0.0, 1.0]))
    for number, exponent in enumerate(chart.exponents):
        study.trade_off = float(exponent)
        np.testing.assert_allclose(
            chart.scores[:, number], study.here().score[here.allowed], rtol=1e-9
        )
    study.trade_off = kept


def test_at_a_crossing_both_score_the_same(study):
    found = []
    for place in range(study.ground.places.cells, study.ground.places.x.size):
        here = study.here(place)
        if here.allowed.size < 2:
            continue
        chart = trade_off_chart(here, study.weights, np.array([-1.0]))
        for at, before, after in chart.crossings:
            worths = here.desirabilities[:, here.allowed[[before, after]]]
            one, other = power_mean(worths, study.weights, at)
            assert one == pytest.approx(other, abs=1e-9)
            found.append(at)
    assert found, "no crossing on the whole demo: the test asked nothing"
