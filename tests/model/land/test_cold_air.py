"""Cold air: it lies in hollows and behind hedges, and leaves through gates and over edges."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from model.land.cold_air import (
    clear_night_offset,
    clear_share,
    dammed_depth,
    height_above_drain,
    hollow_depth,
    night_minimum,
    water_warmth,
)

X, Y = np.meshgrid(np.arange(41) * 2.0, np.arange(31) * 2.0)
decimetres = st.integers(0, 60).map(lambda height: height / 10)
grounds = arrays(float, st.tuples(st.integers(3, 7), st.integers(3, 7)), elements=decimetres)


def offset(z):
    height = height_above_drain(z)
    return clear_night_offset(height, hollow_depth(z), z - height)


def neighbours(z):
    """Positions (row, column) of every pair of neighbouring cells."""
    for row, column in np.ndindex(z.shape):
        for move in ((0, 1), (1, 0), (1, 1), (1, -1)):
            near = row + move[0], column + move[1]
            if near[0] < z.shape[0] and 0 <= near[1] < z.shape[1]:
                yield (row, column), near


@given(z=grounds)
def test_moving_uphill_never_makes_a_clear_night_colder(z):
    warmth = offset(z)
    for one, other in neighbours(z):
        low, high = sorted((one, other), key=lambda place: z[place])
        assert warmth[high] >= warmth[low] - 1e-9


@given(z=grounds)
def test_heights_and_depths_are_never_negative(z):
    assert (height_above_drain(z) >= 0).all()
    assert (hollow_depth(z) >= 0).all()


@given(
    z=grounds,
    height=st.floats(0.1, 3),
    places=st.sets(st.tuples(st.integers(0, 6), st.integers(0, 6))),
)
def test_a_barrier_never_warms_and_never_holds_more_than_its_height(z, height, places):
    barrier = np.zeros((7, 7))
    for place in places:
        barrier[place] = height
    added = dammed_depth(z, barrier[: z.shape[0], : z.shape[1]], 2.0)
    assert (added >= 0).all()
    assert (added <= height + 1e-9).all()


def test_a_hollow_frosts_when_the_slope_above_it_does_not():
    # Common practice, no source.
    z = 0.08 * Y
    hollow = z - 3 * np.exp(-(((X - 40) / 8) ** 2) - ((Y - 24) / 6) ** 2)
    warmth = offset(hollow)
    assert warmth[12, 20] < warmth[28, 20] - 1.5
    assert hollow_depth(hollow)[12, 20] > 1


def test_a_hedge_across_the_slope_dams_the_cold_air():
    # Common practice, no source. Row 0 is the south, where the ground is lowest.
    z, hedge = 0.08 * Y, np.zeros(X.shape)
    hedge[12, 5:36] = 1.2
    added = dammed_depth(z, hedge, 2.0)
    assert added[13, 20] > 0.3
    assert (added[:13] == 0).all()
    assert added[13, 20] > added[13, 8]
    hedge[12, 19:22] = 0  # a gate
    assert dammed_depth(z, hedge, 2.0)[13, 20] < 0.05


def test_a_hedge_down_the_slope_dams_nothing():
    hedge = np.zeros(X.shape)
    hedge[5:25, 20] = 1.5
    assert dammed_depth(0.08 * Y, hedge, 2.0).max() < 0.05


def test_a_slanting_hedge_drawn_corner_to_corner_holds():
    z = 0.08 * (X + Y) / np.sqrt(2)
    hedge = np.zeros(X.shape)
    hedge[np.arange(30), 30 - np.arange(30)] = 1.0
    assert dammed_depth(z, hedge, 2.0)[17, 15] > 0.2


def test_open_water_warms_its_edge_and_less_away_from_it():
    warmth = water_warmth([0, 10, 40], width=20)
    assert (np.diff(warmth) < 0).all()
    assert (water_warmth([0, 10, 40], width=3) <= warmth).all()


def test_a_place_like_the_stations_has_the_stations_nights():
    assert clear_night_offset(10, 0, 0) == 0
    assert night_minimum(-1.0, 1.0, 0.0, 0.0) == -1


@given(tmin=st.floats(-10, 10), clear=st.floats(0, 1), pool=st.floats(0, 5), more=st.floats(0, 3))
def test_a_deeper_pool_is_never_warmer(tmin, clear, pool, more):
    shallow, deep = (
        night_minimum(tmin, clear, clear_night_offset(5, depth, 0), 0)
        for depth in (pool, pool + more)
    )
    assert deep <= shallow


def test_cloudy_nights_know_no_hollows():
    assert night_minimum(3.0, clear_share(3.0, 7.0), -4.0, 0.0) == 3


def test_unknown_ground_stays_unknown():
    z = 0.1 * X + 0.05 * Y
    z[10:, :5] = np.nan
    for found in (height_above_drain(z), hollow_depth(z), dammed_depth(z, 0 * X, 2.0)):
        assert (np.isnan(found) == np.isnan(z)).all()
