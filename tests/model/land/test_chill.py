"""Chill: shapes, unknown hours, and what more cold may and may not do."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.land.chill import chill_hours, chill_portions, utah_units

WINTER = 5 + 6 * np.sin(np.arange(2000) / 4) + 3 * np.sin(np.arange(2000) / 50)


@pytest.mark.parametrize("model", [chill_portions, utah_units, chill_hours])
def test_winters_and_altitudes_are_reckoned_together_as_they_are_apart(model):
    winters = WINTER[:, None, None] + np.array([[-2.0, 0.0, 1.5], [3.0, 5.0, 9.0]])
    together = model(winters)
    assert together.shape == (2, 3)
    apart = [[model(winters[:, i, j]) for j in range(3)] for i in range(2)]
    assert together == pytest.approx(np.array(apart))


@pytest.mark.parametrize("model", [chill_portions, utah_units, chill_hours])
def test_an_unknown_hour_leaves_its_own_winter_unknown(model):
    winters = np.stack([WINTER, WINTER], axis=1)
    winters[700, 1] = np.nan
    assert np.isfinite(model(winters)[0])
    assert np.isnan(model(winters)[1])


def test_the_running_sum_ends_at_the_total():
    running = chill_portions(WINTER, cumulative=True)
    assert running.shape == WINTER.shape
    assert running[-1] == pytest.approx(chill_portions(WINTER))


@given(shift=st.floats(-5, 15))
@settings(max_examples=25, deadline=None)
def test_fixed_chill_is_never_lost_again(shift):
    assert (np.diff(chill_portions(WINTER + shift, cumulative=True)) >= 0).all()


def test_a_mild_winter_made_milder_gives_less_chill():
    # Above the best temperatures warmth can only cost chill; below them it can also help.
    mild = WINTER + 3
    assert chill_portions(mild + 1) < chill_portions(mild)
    assert utah_units(mild + 1) < utah_units(mild)
    assert chill_hours(mild + 1) < chill_hours(mild)


def test_no_hours_give_no_chill():
    assert chill_portions(np.empty((0, 3))).tolist() == [0, 0, 0]
    assert utah_units(np.empty((0, 3))).tolist() == [0, 0, 0]
