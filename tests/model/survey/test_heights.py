"""Surfaces pass through what was measured and are checked with an independent interpolation."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.interpolate import RegularGridInterpolator

from model.survey.heights import Plane, RasterHeights, SpotHeights, same_heights

ALONG = np.arange(0, 50, 5.0)
UP = np.arange(-20, 21, 4.0)


def raster(height):
    x, y = np.meshgrid(ALONG, UP)
    return RasterHeights(ALONG, UP, height(x, y))


def test_spots_on_a_plane_give_the_plane():
    x, y = np.array([0.0, 100, 100, 0, 37]), np.array([0.0, 0, 80, 80, 21])
    surface = SpotHeights(x, y, 50 + 0.1 * x - 0.05 * y).surface
    inside = np.array([[10.0, 20], [50, 70]]), np.array([[10.0, 60], [40, 5]])
    assert surface(*inside) == pytest.approx(50 + 0.1 * inside[0] - 0.05 * inside[1])


def test_outside_the_spots_the_nearest_counts():
    surface = SpotHeights(np.array([0.0, 10, 0]), np.array([0.0, 0, 10]), np.array([1.0, 2, 3]))
    assert surface.surface([-50, 60], [-50, 0]).tolist() == [1, 2]


def test_spots_on_one_line_still_give_heights():
    surface = SpotHeights(np.arange(3.0), np.zeros(3), np.array([1.0, 2, 3])).surface
    assert surface(1.9, 7) == 3


@pytest.mark.parametrize(("aspect", "x", "y"), [(0, 0, 100), (90, 100, 0), (180, 0, -100)])
def test_a_plane_falls_by_its_slope_along_the_bearing_it_faces(aspect, x, y):
    assert Plane(8, aspect, 60).surface(x, y) == pytest.approx(52)
    assert Plane(8, aspect, 60).surface(0, 0) == 60


@given(st.floats(0, 45), st.floats(-20, 20))
def test_a_raster_is_bilinear_as_scipy_has_it(x, y):
    heights = raster(lambda x, y: np.sin(x / 9) * y + x)
    independent = RegularGridInterpolator((UP, ALONG), heights.z)
    assert heights.surface(x, y) == pytest.approx(independent((y, x)).item())


def test_beyond_its_edges_a_raster_is_held_flat():
    surface = raster(lambda x, y: x + 100 * y).surface
    assert surface([-9, 99], [0, 99]).tolist() == [0, 45 + 2000]


def test_cells_that_are_not_known_are_bridged():
    heights = raster(lambda x, _: x)
    z = heights.z.copy()
    z[:, 5] = np.nan
    z[:, 7:] = np.nan
    surface = RasterHeights(ALONG, UP, z).surface
    assert surface([24.0, 26.0, 45.0], [0, 0, 0]).tolist() == [20, 30, 30]


def test_a_raster_of_nothing_knows_nothing():
    assert np.isnan(raster(lambda x, _: x * np.nan).surface([1.0], [1.0])).all()


def test_a_raster_of_one_cell_is_level():
    heights = RasterHeights(np.array([5.0]), np.array([5.0]), np.array([[7.0]]))
    assert heights.surface([0, 9.0], [0, 9.0]).tolist() == [7, 7]


def test_the_shape_of_the_points_is_kept():
    for heights in (Plane(1, 2), raster(lambda x, _: x), SpotHeights(*np.eye(3))):
        assert heights.surface(np.zeros((2, 3)), np.zeros((2, 3))).shape == (2, 3)


def test_heights_are_the_same_when_they_say_the_same():
    one, other = raster(lambda x, _: x), raster(lambda x, _: x + 0.001)
    assert same_heights(one, raster(lambda x, _: x))
    assert not same_heights(one, other)
    assert not same_heights(one, None)
    assert not same_heights(one, Plane(1, 2))
    assert same_heights(None, None)
    assert same_heights(Plane(1, 2), Plane(1, 2))
    assert not same_heights(Plane(1, 2), Plane(1, 3))
