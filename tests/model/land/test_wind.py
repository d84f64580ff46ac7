"""Wind roses and ridges."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.land.wind import BEARINGS, by_rose, finer_rose, ridge_exposure, wind_rose

X, Y = np.meshgrid(np.arange(40) * 3.0, np.arange(30) * 3.0)


def test_a_rose_counts_strong_winds_more_and_sums_to_one():
    rose = wind_rose([6.0, 2.0, 0.0, np.nan, 5.0], [220, 90, 10, 10, np.nan])
    assert rose.sum() == pytest.approx(1)
    assert rose[BEARINGS == 220] == 0.75
    assert rose[BEARINGS == 90] == 0.25


def test_a_bearing_just_west_of_north_is_north():
    assert wind_rose([1.0], [358])[0] == 1


def test_a_record_without_wind_is_even():
    assert wind_rose([np.nan, 0.0], [0.0, 90.0]) == pytest.approx(np.full(36, 1 / 36))


@given(shares=st.lists(st.floats(0.1, 9), min_size=8, max_size=8))
def test_a_finer_rose_keeps_the_whole_and_its_points(shares):
    rose = finer_rose(np.arange(8) * 45, shares, np.arange(0, 360, 5))
    assert rose.sum() == pytest.approx(1)
    assert rose[::9] / rose[0] == pytest.approx(np.array(shares) / shares[0])


def test_shelter_counts_by_the_share_of_wind_it_is_there_for():
    felt = np.ones((36, 2))
    felt[20:25, 0] = 0.2
    rose = np.zeros(36)
    rose[22], rose[0] = 0.8, 0.2
    assert by_rose(felt, rose) == pytest.approx([0.36, 1.0])


@given(east=st.floats(-0.3, 0.3), north=st.floats(-0.3, 0.3))
def test_a_plane_is_as_exposed_as_level_ground_to_its_edge(east, north):
    exposure = ridge_exposure(east * X + north * Y, 3.0, radius=30.0)
    assert exposure == pytest.approx(np.ones(X.shape), abs=1e-6)


def test_a_ridge_is_exposed_and_a_dip_is_not():
    ridge = 6 * np.exp(-(((X - 60) / 20) ** 2))
    assert ridge_exposure(ridge, 3.0, 40.0)[15, 20] > 1.05
    assert ridge_exposure(-ridge, 3.0, 40.0)[15, 20] < 0.95


@given(height=st.floats(0, 60))
def test_exposure_stays_within_what_the_guidelines_cover(height):
    exposure = ridge_exposure(height * np.sin(X / 15), 3.0, 30.0)
    assert exposure.min() >= 0.6
    assert exposure.max() <= 1.6
