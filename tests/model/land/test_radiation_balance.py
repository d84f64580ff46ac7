"""Radiation of a day: what the sky allows."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.land import radiation_balance as radiation

latitudes = st.floats(-89, 89)
days = st.integers(1, 365)


@given(latitude=latitudes, day=days)
def test_less_reaches_the_ground_than_the_top_of_the_air(latitude, day):
    above = radiation.extraterrestrial(latitude, day)
    assert 0 <= radiation.clear_sky(latitude, day, 500) <= above + 1e-9
    assert radiation.from_temperature_range(2, 30, latitude, day) <= 0.75 * above + 1e-9


@given(latitude=latitudes, day=days, hours=st.floats(0, 24), more=st.floats(0, 24))
def test_more_sunshine_never_brings_less_radiation(latitude, day, hours, more):
    less_sun = radiation.from_sunshine(hours, latitude, day)
    assert radiation.from_sunshine(hours + more, latitude, day) >= less_sun


def test_polar_night_is_dark_and_has_a_figure():
    assert radiation.extraterrestrial(80, 355) == 0
    assert radiation.daylight_hours([80, -80], 355) == pytest.approx([0, 24])
    assert np.isfinite(radiation.net_longwave(-30, -20, 0.05, 0.0, 0.0))


def test_seasons_turn_south_of_the_equator():
    north, south = radiation.extraterrestrial([45, -45], 172)
    assert north > 2 * south
