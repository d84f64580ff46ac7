"""The sun rises in the east, stands over the equator's side at noon and sets in the west."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.land.sun_position import horizontal, refraction, sun_position

YEAR = np.arange("2024-01-01", "2025-01-01", dtype="datetime64[D]")
NOON = YEAR.astype("datetime64[m]") + np.timedelta64(12 * 60, "m")


def test_at_noon_the_sun_stands_in_the_south_in_the_north_and_in_the_north_in_the_south():
    _, bearing = sun_position(NOON, 52, 0)
    assert (np.abs(bearing - 180) < 10).all()
    _, bearing = sun_position(NOON, -52, 0)
    assert (np.abs((bearing + 180) % 360 - 180) < 10).all()


def test_the_sun_is_in_the_east_before_noon_and_in_the_west_after():
    hours = np.timedelta64(3, "h")
    for latitude in (60, -35):
        assert (sun_position(NOON - hours, latitude, 0)[1] < 180).all()
        assert (sun_position(NOON + hours, latitude, 0)[1] > 180).all()


def test_going_east_is_going_forward_in_time():
    later = sun_position(NOON + np.timedelta64(4, "h"), 45, 0)
    east = sun_position(NOON, 45, 60)
    # The sun's own path moves by up to 0.07 degrees in four hours.
    assert np.abs(np.subtract(later, east)).max() < 0.2


def test_the_midsummer_sun_is_higher_than_the_midwinter_sun_in_either_hemisphere():
    june, december = NOON[172], NOON[355]
    for summer, winter, latitude in ((june, december, 50), (december, june, -50)):
        assert sun_position(summer, latitude, 0)[0] > 60
        assert sun_position(winter, latitude, 0)[0] < 20


@given(st.floats(-23.4, 23.4), st.floats(-90, 90))
def test_the_noon_sun_is_as_far_from_overhead_as_latitude_is_from_declination(sun, latitude):
    elevation, _ = horizontal(sun, 0, latitude)
    assert elevation == pytest.approx(90 - abs(latitude - sun), abs=1e-5)


def test_the_air_lifts_a_low_sun_by_its_width_and_a_high_one_hardly():
    assert refraction(0.0) == pytest.approx(0.48, abs=0.03)
    assert refraction(45.0) < 0.02
    assert refraction(-10.0) == 0
    assert (np.diff(refraction(np.linspace(-0.8, 90, 500))) <= 0).all()
