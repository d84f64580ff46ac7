"""Bringing water: portions, carrying and hoses."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from model.land.watering import busiest, carrying_time, hose_flow, portions

needs = arrays(float, (3, 30), elements=st.integers(0, 12).map(float))


@given(need=needs, portion=st.floats(1, 40))
def test_portions_cover_the_need_and_at_most_one_more(need, portion):
    brought = portions(need, portion).sum(axis=-1) * portion
    assert (brought >= need.sum(axis=-1) - 1e-6).all()
    assert (brought <= need.sum(axis=-1) + portion).all()


@given(need=needs, portion=st.floats(1, 40))
def test_water_is_never_brought_late(need, portion):
    brought = np.cumsum(portions(need, portion), axis=-1) * portion
    assert (brought >= np.cumsum(need, axis=-1) - 1e-6).all()


@given(need=needs, days=st.integers(1, 30))
def test_the_busiest_days_need_no_more_than_all_and_no_less_than_a_fair_part(need, days):
    most = busiest(need, days)
    assert (most <= need.sum(axis=-1)).all()
    assert (most * np.ceil(30 / days) >= need.sum(axis=-1) - 1e-9).all()


def test_a_year_shorter_than_the_span_counts_whole():
    assert busiest([1.0, 2.0], days=7) == 3


def test_the_tap_near_by_saves_time_only_while_there_is_water_to_carry():
    # Common practice, no source: a tap near by is worth much in the first summers, little later.
    assert carrying_time(60, 120, 100) > 2 * carrying_time(60, 20, 20)
    assert carrying_time(0, 120, 100) == 0


def test_nothing_runs_uphill_and_a_longer_or_thinner_hose_brings_less():
    assert hose_flow([-1.0, 0.0], 30, 0.019) == pytest.approx([0, 0])
    usual = hose_flow(2.0, 30, 0.019)
    assert hose_flow(2.0, 60, 0.019) < usual
    assert hose_flow(2.0, 30, 0.0127) < usual / 2
    assert hose_flow(4.0, 30, 0.019) > usual
