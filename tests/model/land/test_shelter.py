"""Shelter: it helps downwind, fades with distance, and never makes more wind than there is."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.land.shelter import eddies, felt_wind, sheltered_wind, wind_behind

distances = st.floats(-40, 60)
densities = st.floats(0, 1)
HEDGE = [[-100.0, 0, 100, 0]]


@given(distance=distances, density=densities)
def test_shelter_never_raises_the_wind_beyond_the_open(distance, density):
    left = wind_behind(distance, density)
    assert 0.2 <= left <= felt_wind(distance, density) <= 1


@given(distance=st.floats(5, 60), further=st.floats(0, 20), density=densities)
def test_shelter_fades_downwind(distance, further, density):
    assert wind_behind(distance + further, density) >= wind_behind(distance, density) - 1e-12


@given(density=densities, distance=st.floats(0, 40))
def test_less_shelter_stands_before_a_belt_than_behind_it(density, distance):
    assert wind_behind(-distance, density) >= wind_behind(distance, density) - 1e-12


def test_only_solid_barriers_make_eddies_and_only_close_behind():
    assert eddies(4, [0.3, 0.6, 0.65]).max() == 0
    assert eddies(4, 1.0) == 1
    assert eddies([-1, 10, 20], 1.0).max() == 0
    # Half of a solid fence's shelter is undone: 0.25 left, and half of the other 0.75 back.
    assert felt_wind(5, 1.0) == pytest.approx(0.625)
    assert felt_wind(5, 0.5) == pytest.approx(0.3)


@given(x=st.floats(-60, 60), y=st.floats(1, 80), bearing=st.integers(0, 359), density=densities)
def test_wind_turned_about_shelters_the_other_side_alike(x, y, bearing, density):
    one = sheltered_wind([x], [y], HEDGE, 3.0, density, [bearing])
    other = sheltered_wind([-x], [-y], HEDGE, 3.0, density, [bearing + 180])
    assert one == pytest.approx(other, abs=1e-6)


def test_bearings_name_where_the_wind_comes_from_and_y_is_north():
    south, north = sheltered_wind([0, 0], [-15, 15], HEDGE, 3.0, 0.5, [0, 180]).T
    assert south.tolist() == [0.3, 1.0]
    assert north.tolist() == [1.0, 0.3]


def test_wind_past_the_end_of_a_belt_is_open():
    assert sheltered_wind([150], [-10], HEDGE, 3.0, 0.5, [0]) == 1
    assert sheltered_wind([0], [-10], HEDGE, 3.0, 0.5, [90]) == 1


def test_a_slanting_wind_goes_the_longer_way():
    straight, slanting = sheltered_wind([0], [-30], HEDGE, 3.0, 0.5, [0, 45])
    assert slanting > straight


def test_the_best_of_several_barriers_counts_and_none_leaves_the_wind():
    two = [*HEDGE, [-100.0, 50, 100, 50]]
    both = sheltered_wind([0], [-15], two, [3.0, 10.0], 0.5, [0])
    assert both == sheltered_wind([0], [-15], HEDGE, 3.0, 0.5, [0])
    assert (sheltered_wind([0, 5], [1, 2], np.empty((0, 4)), [], [], [0, 90]) == 1).all()


@given(height=st.floats(0.5, 20), more=st.floats(0, 10), distance=st.floats(60, 300))
def test_a_taller_belt_never_shelters_less_far(height, more, distance):
    low = sheltered_wind([0], [-distance], HEDGE, height, 0.4, [0])
    tall = sheltered_wind([0], [-distance], HEDGE, height + more, 0.4, [0])
    assert tall <= low + 1e-12


def test_heights_may_differ_with_the_ground_of_the_place():
    height = np.array([[2.0], [6.0]])
    felt = sheltered_wind([0, 0], [-40, -40], HEDGE, height, 0.5, [0])
    assert felt[0, 1] < felt[0, 0]
