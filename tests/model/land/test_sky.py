"""The sky's patches hold every direction asked of them, once, and their light adds up."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.land.sky import Circle, runs, sky_of, whole_sky

bearings = st.floats(-360, 720)


@given(bearings, st.floats(0, 180), st.sampled_from([1, 7, 180]))
def test_a_span_takes_the_columns_whose_bearing_lies_in_it(middle, half, count):
    circle = Circle(1.0, count)
    _, column, offset = circle.within(np.array([middle]), np.array([half]))
    aside = (circle.bearings - middle + 180) % 360 - 180
    clear = np.abs(np.abs(aside) - half) > 1e-6
    assert set(np.flatnonzero(clear & (np.abs(aside) < half))) <= set(column)
    assert not set(np.flatnonzero(clear & (np.abs(aside) > half))) & set(column)
    assert len(set(column)) == len(column)
    turned = (circle.bearings[column] - middle - offset + 180) % 360 - 180
    assert turned == pytest.approx(np.zeros(len(column)), abs=1e-6)


def test_a_thing_with_no_width_left_takes_nothing():
    assert not len(Circle(1.0, 180).within(np.array([90.0]), np.array([-1.0]))[0])


@given(st.lists(st.tuples(st.floats(0, 89), bearings), min_size=1, max_size=30))
def test_every_direction_lies_in_its_patch(directions):
    elevation, bearing = np.transpose(directions)
    sky = sky_of(Circle(1.0, 180), 2.5, elevation, bearing)
    patch = sky.patch_at(elevation, bearing)
    assert (np.abs((sky.row[patch] + 0.5) * 2.5 - elevation) <= 1.25 + 1e-9).all()
    aside = (sky.circle.bearings[sky.column[patch]] - bearing + 180) % 360 - 180
    assert (np.abs(aside) <= 1 + 1e-9).all()


def test_patches_are_numbered_without_gaps():
    sky = sky_of(Circle(1.0, 180), 2.5, [10, 16, 3], [101, 101, 201])
    assert sky.row.tolist() == [4, 5, 6, 1]  # the row between two is filled
    assert (sky.start[sky.column] + sky.row).tolist() == [0, 1, 2, 3]


def test_the_whole_skys_light_adds_up_to_one_and_half_comes_from_above_45_degrees():
    sky, shares = whole_sky(36, 90)
    assert shares.sum() == pytest.approx(1)
    assert shares[sky.row >= 45].sum() == pytest.approx(0.5)


def test_runs_of_nothing_are_empty():
    assert all(len(part) == 0 for part in runs(np.zeros(5, int)))
