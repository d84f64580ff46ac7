"""Growing degree hours: bounds, shape, unknown hours."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.land.heat import degree_hours, growing_degree_hours


@given(temperature=st.floats(-30, 50))
def test_an_hour_is_worth_at_most_the_optimum_less_the_base(temperature):
    assert 0 <= degree_hours(temperature) <= 21


@given(temperature=st.floats(4, 24))
def test_below_the_optimum_warmer_is_worth_more(temperature):
    assert degree_hours(temperature + 1) > degree_hours(temperature)


def test_a_cool_season_made_colder_gives_less_heat_at_every_place():
    season = 14 + 6 * np.sin(np.arange(24 * 200) * 2 * np.pi / 24)
    heat = growing_degree_hours(season[:, None] + np.array([-2.0, -1.0, 0.0]))
    assert (np.diff(heat) > 0).all()


def test_other_limits_move_the_curve():
    assert degree_hours(20, base=10, optimum=20, critical=30) == pytest.approx(10)


def test_an_unknown_hour_leaves_the_sum_unknown():
    assert np.isnan(growing_degree_hours([10.0, np.nan]))
