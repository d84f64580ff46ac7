"""Slope and aspect: planes, edges, unknown heights, and which way is north."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.land.terrain import aspect, gradient, slope

X, Y = np.meshgrid(np.arange(7) * 10.0, np.arange(6) * 10.0)


@given(east=st.floats(-1, 1), north=st.floats(-1, 1))
def test_a_plane_has_its_own_slope_everywhere_to_the_edge(east, north):
    rise_east, rise_north = gradient(east * X + north * Y, cell=10)
    assert rise_east == pytest.approx(np.full(X.shape, east), abs=1e-9)
    assert rise_north == pytest.approx(np.full(X.shape, north), abs=1e-9)


def test_level_ground_has_no_slope_and_faces_nowhere():
    assert (slope(0 * X, cell=10) == 0).all()
    assert np.isnan(aspect(0 * X, cell=10)).all()


@pytest.mark.parametrize(
    ("z", "bearing"), [(Y, 180), (-Y, 0), (X, 270), (-X, 90), (X + Y, 225), (-X - Y, 45)]
)
def test_ground_faces_downhill_with_row_zero_in_the_south(z, bearing):
    assert aspect(z, cell=10) == pytest.approx(np.full(X.shape, bearing))


def test_turning_the_ground_turns_its_aspect():
    z = np.random.default_rng(3).normal(size=(8, 8))
    turned = np.rot90(z)  # counted from the south, this takes east to south
    expected = np.rot90((aspect(z, 1) + 90) % 360)
    assert aspect(turned, 1)[1:-1, 1:-1] == pytest.approx(expected[1:-1, 1:-1])


def test_an_unknown_height_leaves_its_neighbours_unknown_and_no_more():
    z = 0.1 * X
    z[2, 3] = np.nan
    unknown = np.isnan(slope(z, cell=10))
    assert unknown[2, 2]
    assert unknown[1:4, 2:5].sum() >= 8
    assert not unknown[:, 5:].any()
