"""Where water gathers: nothing is lost, pits run over, south is row 0."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from model.land.wetness import contributing_area, topographic_wetness, without_pits

decimetres = st.integers(0, 90).map(lambda height: height / 10)
grounds = arrays(float, st.tuples(st.integers(3, 8), st.integers(3, 8)), elements=decimetres)


def lowest_of_their_neighbours(z):
    """Cells that no water can leave."""
    around = np.pad(z, 1, constant_values=np.inf)
    rows, columns = z.shape
    near = [
        around[1 + row : 1 + row + rows, 1 + column : 1 + column + columns]
        for row in (-1, 0, 1)
        for column in (-1, 0, 1)
        if row or column
    ]
    return z <= np.min(near, axis=0)


@given(z=grounds, single=st.booleans())
def test_all_land_drains_somewhere(z, single):
    area = contributing_area(z, 5.0, single=single)
    assert (area >= 25 - 1e-6).all()
    outlets = lowest_of_their_neighbours(without_pits(z, 1e-5))
    assert area[outlets].sum() == pytest.approx(25 * z.size)


@given(z=grounds)
def test_filling_only_raises_and_leaves_no_pit(z):
    filled = without_pits(z)
    assert (filled >= z).all()
    assert filled == pytest.approx(without_pits(filled))
    assert filled[0] == pytest.approx(z[0])


def test_water_runs_to_the_low_side_with_row_zero_in_the_south():
    _, y = np.meshgrid(np.arange(6.0), np.arange(6.0))
    area = contributing_area(y, 1.0)
    assert (area[0] > area[-1]).all()


def test_valley_floor_is_wetter_than_its_sides():
    x, y = np.meshgrid(np.arange(-10, 11.0), np.arange(12.0))
    wetness = topographic_wetness(abs(x) * 0.2 + y * 0.1, np.full(x.shape, 0.1), 1.0)
    assert wetness[3].argmax() == 10


def test_a_pit_on_level_ground_is_wet_and_finite():
    z = np.ones((5, 5))
    z[2, 2] = 0
    wetness = topographic_wetness(z, np.zeros((5, 5)), 2.0)
    assert np.isfinite(wetness).all()


def test_unknown_ground_stays_unknown_and_lets_water_out():
    z = np.add.outer(np.arange(7.0), np.arange(7.0))
    z[3:, 3:] = np.nan
    area = contributing_area(z, 1.0)
    assert (np.isnan(area) == np.isnan(z)).all()
    assert np.isnan(contributing_area(np.full((3, 3), np.nan), 1.0)).all()
