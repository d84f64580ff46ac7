"""The ground hides the sky by its slope, and only where it is known."""

import numpy as np
import pytest

from model.land.horizon import LEVEL, Relief, column_slopes, ground_slopes
from model.land.sky import Circle

AXIS = np.arange(0, 101.0, 2)
X, Y = np.meshgrid(AXIS, AXIS)
FOUR = np.array([0.0, 90.0, 180.0, 270.0])


def test_a_plane_rises_by_its_slope_and_falls_behind():
    plane = Relief(0.2 * Y, AXIS, AXIS)
    up = ground_slopes(plane, np.array([[50, 50, 10.0]]), FOUR)[0]
    assert up == pytest.approx([0.2, 0, -0.2, 0], abs=1e-9)


def test_an_eye_above_the_ground_sees_farther_down():
    plane = Relief(0.2 * Y, AXIS, AXIS)
    low, high = ground_slopes(plane, np.array([[50, 50, 10.0], [50, 50, 12.0]]), FOUR)
    assert (high <= low).all()
    assert high[0] == pytest.approx(0.2 - 2 / 50, abs=0.01)  # the plane's far edge, 50 m off


def test_row_zero_is_the_south():
    step = Relief(np.where(Y > 60, 8.0, 0.0), AXIS, AXIS)
    slopes = ground_slopes(step, np.array([[50, 50, 0.0]]), FOUR)[0]
    assert slopes[0] > 0.5
    assert slopes[2] == pytest.approx(0, abs=1e-9)


def test_ground_beyond_the_grid_or_unknown_hides_nothing():
    unknown = Relief(np.full_like(X, np.nan), AXIS, AXIS)
    assert (ground_slopes(unknown, np.array([[50, 50, 0.0]]), FOUR) == LEVEL).all()
    known = Relief(0 * X, AXIS, AXIS)
    assert ground_slopes(known, np.array([[0, 0, 0.0]]), np.array([225.0]))[0, 0] == LEVEL


def test_bearings_between_the_coarse_ones_are_near_their_own_slopes():
    hills = Relief(3 * np.sin(X / 15) * np.cos(Y / 20), AXIS, AXIS)
    eyes = np.column_stack([[50, 31, 70], [50, 66, 20], [3, 2, 1]]).astype(float)
    circle = Circle(1.0, 180)
    used = np.arange(180) % 3 > 0
    slopes = np.full((3, 180), LEVEL)
    column_slopes(hills, eyes, circle, used, slopes)
    each = ground_slopes(hills, eyes, circle.bearings[used])
    apart = np.degrees(np.arctan(slopes[:, used]) - np.arctan(each))
    assert np.abs(apart).mean() < 0.25
    assert np.abs(apart).max() < 3  # where one hill's outline ends before another's
    assert (slopes[:, ~used] == LEVEL).all()
