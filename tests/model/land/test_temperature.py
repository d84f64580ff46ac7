"""Temperature through the day: extremes kept, curve unbroken, both hemispheres, polar days."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.land.temperature import hourly_from_daily, station_to_place, sunrise_sunset

LATITUDES = st.floats(-66, 66)


@given(latitude=LATITUDES, day=st.integers(1, 365))
def test_noon_lies_midway_between_rise_and_set(latitude, day):
    rise, sunset = sunrise_sunset(latitude, day)
    assert rise + sunset == pytest.approx(24)
    assert 0 <= rise < sunset <= 24


def test_summer_days_are_long_in_the_south_when_short_in_the_north():
    north, south = (np.diff(sunrise_sunset(latitude, 355), axis=0)[0] for latitude in (45, -45))
    assert north < 9
    assert south > 15


@given(
    latitude=LATITUDES,
    first=st.integers(1, 360),
    low=st.lists(st.floats(-20, 25), min_size=5, max_size=5),
    swing=st.lists(st.floats(0, 20), min_size=5, max_size=5),
)
def test_hours_stay_between_the_extremes_about_them(latitude, first, low, swing):
    tmin, tmax = np.array(low), np.array(low) + swing
    hourly = hourly_from_daily(tmin, tmax, latitude, np.arange(first, first + 5))
    near = np.stack([tmin[:-2], tmax[:-2], tmin[1:-1], tmax[1:-1], tmin[2:]])
    assert (hourly[1:-1].max(axis=1) <= near.max(axis=0) + 1e-9).all()
    assert (hourly[1:-1].min(axis=1) >= near.min(axis=0) - 1e-9).all()


def test_the_warmest_hour_is_two_hours_after_noon():
    hourly = hourly_from_daily([2.0] * 3, [14.0] * 3, 50, [120, 121, 122])
    assert (hourly.argmax(axis=1) == 14).all()
    assert hourly[:, 14] == pytest.approx(14.0)


def test_equal_days_join_without_a_jump():
    hourly = hourly_from_daily([0.0] * 4, [10.0] * 4, 52, [80] * 4).ravel()
    assert np.abs(np.diff(hourly)).max() < 2.5
    assert hourly[24:48] == pytest.approx(hourly[48:72])


@pytest.mark.parametrize("latitude", [-85, -70, 70, 85])
@pytest.mark.parametrize("day", [172, 355])
def test_midnight_sun_and_polar_night_give_a_temperature(latitude, day):
    hourly = hourly_from_daily([-5.0] * 3, [5.0] * 3, latitude, [day] * 3)
    assert np.isfinite(hourly).all()
    assert hourly.min() >= -5
    assert hourly.max() <= 5


def test_an_unknown_day_spoils_its_own_hours_and_the_nights_beside_it_only():
    low, high = np.full(5, 1.0), np.full(5, 9.0)
    low[2] = high[2] = np.nan
    hourly = hourly_from_daily(low, high, 50, np.arange(100, 105))
    assert np.isnan(hourly[2]).all()
    assert np.isfinite(hourly[[0, 4]]).all()
    assert np.isfinite(hourly[[1, 3], 12]).all()


def test_higher_ground_is_colder():
    assert (np.diff(station_to_place(np.array([-50.0, 0, 50, 300]))) < 0).all()
