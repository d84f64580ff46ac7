"""The window: what lies in its sector, and angles across north."""

import numpy as np
import pytest

from model.land.window import Window, half_width, in_window, offset_and_distance

NORTHWARD = Window(0, 0, eye=1.6, bearing=350, width=40, low=-5, high=10, range=100)


@pytest.mark.parametrize(
    ("x", "y", "offset"), [(0, 50, 10), (50, 0, 100), (-50, 0, -80), (0, -50, -170)]
)
def test_offsets_are_counted_to_the_right_across_north(x, y, offset):
    assert offset_and_distance(NORTHWARD, x, y) == pytest.approx((offset, 50))


def test_the_sector_ends_at_its_edges_and_its_range():
    bearing = np.radians([331, 329, 9, 11, 350])
    distance = np.array([50, 50, 50, 50, 101])
    inside = in_window(NORTHWARD, distance * np.sin(bearing), distance * np.cos(bearing))
    assert inside.tolist() == [True, False, True, False, False]


def test_a_crown_may_reach_into_the_window_from_outside():
    bearing = np.radians(12)
    x, y = 50 * np.sin(bearing), 50 * np.cos(bearing)
    assert in_window(NORTHWARD, x, y, [1.0, 3.0]).tolist() == [False, True]


def test_the_eye_inside_a_crown_sees_it_all_round():
    assert half_width(3.0, [0.0, 2.0]).tolist() == [180, 180]
    assert half_width(0.0, [0.0, 5.0]).tolist() == [180, 0]
