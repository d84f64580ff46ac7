"""Domes and screens hide what lies behind them from the eye, whatever way it looks."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.land.covers import Crown, Screen, crown_cover, screen_slopes, slope_cover
from model.land.horizon import LEVEL
from model.land.sky import Circle
from tests import ray_casting

CIRCLE = Circle(1.0, 180)
ALL = np.ones(180, bool)
crowns = st.builds(
    lambda x, y, radius, base, depth: Crown(x, y, radius, base, base + depth),
    *(
        st.floats(-20, 20),
        st.floats(-20, 20),
        st.floats(0.5, 8),
        st.floats(-3, 6),
        st.floats(0.5, 9),
    ),
)


@given(crowns, st.floats(1, 89), st.integers(0, 179))
def test_a_crown_hides_the_directions_whose_rays_meet_it(crown, elevation, column):
    eye = np.array([[0.0, 0.0, 2.0]])
    cover = crown_cover(crown, eye, CIRCLE, ALL)
    here = cover.column == column
    hidden = bool((here & (cover.low < elevation) & (elevation < cover.high)).any())
    nearest = np.abs([cover.low[here] - elevation, cover.high[here] - elevation])
    sun = ray_casting.toward(elevation, CIRCLE.bearings[column])
    if not (nearest < 1e-3).any():
        assert hidden == ray_casting.meets_crown(eye, sun, crown)[0]


def test_from_within_a_crown_the_whole_sky_is_hidden():
    cover = crown_cover(Crown(0, 0, 3, 1, 6), np.array([[1.0, 1.0, 2.0]]), CIRCLE, ALL)
    assert len(cover.column) == 180
    assert (cover.low < 0).all()
    assert (cover.high == 90).all()


def test_a_crown_below_the_eye_hides_nothing():
    assert not len(crown_cover(Crown(0, 5, 3, 1, 6), np.array([[0, 0, 6.0]]), CIRCLE, ALL).place)


def slopes(screen, *eyes):
    out = np.full((len(eyes), 180), LEVEL)
    screen_slopes(screen, np.array(eyes, float), CIRCLE, ALL, out)
    return out


def test_a_wall_hides_by_its_height_over_the_distance_along_each_bearing():
    wall = Screen([(-30, 10), (30, 10)], 5)
    bearing = np.radians(CIRCLE.bearings)
    north = (np.cos(bearing) > 0) & (np.abs(np.tan(bearing)) < 3)
    expected = np.where(north, (5 - 2) * np.cos(bearing) / 10, LEVEL)
    assert slopes(wall, (0, 0, 2))[0] == pytest.approx(expected)


def test_a_wall_hides_the_same_drawn_from_either_end():
    one, other = Screen([(-3, 10), (30, 7)], 5), Screen([(30, 7), (-3, 10)], 5)
    assert slopes(one, (0, 0, 2), (5, 20, 1)) == pytest.approx(slopes(other, (0, 0, 2), (5, 20, 1)))


def test_faces_may_differ_in_height():
    fence = Screen([(-10, 10), (0, 10), (10, 10)], [3, 6])
    across = slopes(fence, (0, 0, 2))[0]
    assert across[1] / across[178] == pytest.approx(4, rel=1e-6)  # bearings 3 and 357 degrees


def test_inside_an_outline_below_its_top_nothing_of_the_sky_is_open():
    box = Screen([(-5, -5), (5, -5), (5, 5), (-5, 5), (-5, -5)], 4)
    inside, above, outside = slopes(box, (1, 1, 2), (1, 1, 4.5), (20, 0, 2))
    assert (inside == np.inf).all()
    assert (above == LEVEL).all()
    assert np.isfinite(outside).all()


def test_the_top_over_an_eye_inside_is_that_of_the_faces_near_it():
    # A wall of 1 m, a hundred metres long, on ground that rises by ten.
    south, north = ([(x, y) for x in range(0, 101, 10)] for y in (0, 0.4))
    rising = [0.1 * x + 1 for x in range(5, 100, 10)]
    tops = [*rising, 11, *rising[::-1], 1]
    wall = Screen([*south, *north[::-1], south[0]], tops)
    below, above = slopes(wall, (25, 0.2, 3.4), (25, 0.2, 4.6))
    assert (below == np.inf).all()
    assert np.isfinite(above).all()


def test_an_open_line_has_no_inside():
    corner = Screen([(-5, -5), (5, -5), (5, 5), (-5, 5)], 4)
    assert np.isfinite(slopes(corner, (1, 1, 2))).all()


def test_a_slope_becomes_a_span_from_below_up_to_its_angle():
    cover = slope_cover(np.array([[1.0, 0.1, np.inf]]), np.array([0.0, 20.0, 0.0]))
    assert cover.column.tolist() == [0, 2]
    assert cover.high == pytest.approx([45, 90])
    assert (cover.low < 0).all()
