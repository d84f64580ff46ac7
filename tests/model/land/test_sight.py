"""Covered views: what grows, hides, stands aside or is not known."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.land.sight import hidden_below, share_covered
from model.land.skyline import skyline
from model.land.window import Window

AXIS = np.arange(0, 121.0)
HILLS = 2 * np.sin(AXIS / 9)[:, None] * np.cos(AXIS / 14)
WINDOW = Window(60, 20, eye=3.0, bearing=0, width=60, low=-5, high=12, range=90)
BARE = skyline(WINDOW, 0 * HILLS, AXIS, AXIS)
BEHIND_HILLS = skyline(WINDOW, HILLS, AXIS, AXIS, walls=[(50, 30, 62, 30, 4)])
METRES = st.floats(0, 120)


@given(x=METRES, y=METRES, spread=st.floats(0.5, 12))
@settings(deadline=None)
def test_a_taller_tree_never_covers_less_and_a_share_is_a_share(x, y, spread):
    heights = np.linspace(0.5, 25, 12)[:, None]
    ground = HILLS[round(y), round(x)]
    share = share_covered(WINDOW, BEHIND_HILLS, ([x], [y], [ground]), heights, spread)[:, 0]
    assert (np.diff(share) >= -1e-12).all()
    assert share.min() >= 0
    assert share.max() <= 1 + 1e-9


@given(x=METRES, y=METRES)
@settings(deadline=None)
def test_what_already_stands_in_the_way_never_adds_to_what_a_tree_covers(x, y):
    place = ([x], [y], [0.0])
    wall = skyline(WINDOW, 0 * HILLS, AXIS, AXIS, walls=[(45, 40, 75, 40, 3.5)])
    with_wall = share_covered(WINDOW, wall, place, 5.0, 4.0)
    assert with_wall <= share_covered(WINDOW, BARE, place, 5.0, 4.0) + 1e-12


def test_the_same_tree_covers_less_from_farther_away():
    y = np.array([30.0, 45, 60, 90])
    share = share_covered(WINDOW, BARE, (np.full(4, 60.0), y, np.zeros(4)), 5.0, 4.0)[0]
    assert (np.diff(share) < 0).all()
    assert share[-1] > 0


def test_trees_aside_behind_or_out_of_range_cover_nothing():
    places = (np.array([110.0, 60, 60]), np.array([25.0, 5, 115]), np.zeros(3))
    assert (share_covered(WINDOW, BARE, places, 9.0, 5.0) == 0).all()


def test_a_tree_on_the_windows_edge_covers_half_of_what_it_would_within():
    bearing = np.radians([0.0, 30.0])
    x, y = 60 + 40 * np.sin(bearing), 20 + 40 * np.cos(bearing)
    within, on_edge = share_covered(WINDOW, BARE, (x, y, np.zeros(2)), 6.0, 5.0)[0]
    assert on_edge == pytest.approx(within / 2, rel=0.01)


def test_a_tree_wholly_behind_a_higher_wall_covers_nothing_anew():
    wall = skyline(WINDOW, 0 * HILLS, AXIS, AXIS, walls=[(30, 40, 90, 40, 8)])
    place = ([60.0], [60.0], [0.0])
    assert share_covered(WINDOW, wall, place, 6.0, 4.0)[0, 0] == 0
    assert share_covered(WINDOW, BARE, place, 6.0, 4.0)[0, 0] > 0


def test_a_tree_before_the_wall_covers_as_if_the_wall_were_not_there():
    wall = skyline(WINDOW, 0 * HILLS, AXIS, AXIS, walls=[(30, 40, 90, 40, 8)])
    place = ([60.0], [35.0], [0.0])
    assert share_covered(WINDOW, wall, place, 6.0, 4.0) == pytest.approx(
        share_covered(WINDOW, BARE, place, 6.0, 4.0)
    )


def test_a_tree_that_stays_below_the_window_covers_nothing():
    hilltop = Window(60, 20, eye=20.0, bearing=0, width=60, low=-5, high=12, range=90)
    bare = skyline(hilltop, 0 * HILLS, AXIS, AXIS)
    assert share_covered(hilltop, bare, ([60.0], [60.0], [0.0]), 5.0, 4.0)[0, 0] == 0


def test_a_clear_stem_lets_the_view_through_below_the_crown():
    place = ([60.0], [40.0], [0.0])
    shares = share_covered(WINDOW, BARE, place, 8.0, 5.0, np.array([[0.0], [2.0], [5.0]]))[:, 0]
    assert (np.diff(shares) < 0).all()


def test_the_eye_in_a_crown_sees_nothing_else():
    place = ([60.0], [21.0], [0.0])
    heights = np.array([[2.5], [6.0]])
    assert share_covered(WINDOW, BARE, place, heights, 6.0)[:, 0].tolist() == [0, 1]
    under = share_covered(WINDOW, BARE, place, 6.0, 6.0, 3.3)[0, 0]
    assert 0 < under < 1


def test_unknown_sizes_and_ground_stay_unknown():
    places = (np.array([60.0, 60, 110]), np.array([50.0, 50, 25]), np.array([0.0, np.nan, np.nan]))
    share = share_covered(WINDOW, BARE, places, np.array([[5.0], [np.nan]]), 4.0)
    assert np.isnan(share).tolist() == [[False, True, True], [True, True, True]]


def test_options_and_places_come_out_as_each_would_alone():
    random = np.random.default_rng(5)
    x, y = random.uniform(20, 100, 30), random.uniform(25, 100, 30)
    heights, spreads = random.uniform(2, 9, (4, 30)), random.uniform(2, 7, (4, 30))
    together = share_covered(WINDOW, BEHIND_HILLS, (x, y, 0 * x), heights, spreads)
    assert together.shape == (4, 30)
    alone = share_covered(
        WINDOW, BEHIND_HILLS, (x[7:8], y[7:8], [0.0]), heights[2, 7], spreads[2, 7]
    )
    assert together[2, 7] == pytest.approx(alone[0, 0])


def test_lines_of_sight_are_known_in_the_window_only():
    line = hidden_below(WINDOW, BARE, [60.0, 5.0], [70.0, 20.0])
    assert line[0] == pytest.approx(0, abs=0.05)
    assert np.isnan(line[1])
