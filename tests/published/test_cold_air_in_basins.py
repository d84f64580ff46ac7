"""Night temperature over a basin against Hocevar & Martsolf (1971)."""

import numpy as np
import pytest

from model.land.cold_air import clear_night_offset, height_above_drain

pytestmark = pytest.mark.published

X, Y = np.meshgrid(np.arange(-50, 51) * 10.0, np.arange(-50, 51) * 10.0)


def test_a_hundred_metres_over_the_floor_are_six_kelvin_warmer_hocevar1971():
    # Agricultural Meteorology 8:371-383, abstract: 6.2 C per 100 m of height above the floor near
    # dawn of calm clear nights.
    floor, above = clear_night_offset([0, 100], pool=0, drain_difference=0)
    assert above - floor == pytest.approx(6.2)
    ten_lower = clear_night_offset([20, 10], pool=0, drain_difference=0)
    assert np.diff(ten_lower) == pytest.approx([-0.62])


def test_height_over_the_floor_of_a_round_basin_is_that_of_its_side():
    # An inverted cone that opens to the south in a narrow cleft at the level of its floor.
    z = 0.1 * np.hypot(X, Y)
    z[:51, 50] = 0
    assert height_above_drain(z) == pytest.approx(z)


def test_a_closed_basin_is_counted_from_its_own_floor_once_it_is_the_lowest():
    z = 5 + 0.1 * np.hypot(X, Y)
    inside = np.hypot(X, Y) < 450
    assert height_above_drain(z)[inside] == pytest.approx((z - 5)[inside])
