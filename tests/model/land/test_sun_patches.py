"""The patches hold all of the year's sun, each month and each part of the day apart."""

import numpy as np
import pytest

from model.land.sun_patches import (
    evening_hours,
    morning_hours,
    summer_months,
    sun_hours,
    sun_patches,
    sun_path,
    winter_months,
)

LATITUDES = [70.0, 52.0, 0.0, -36.0]


@pytest.mark.parametrize("latitude", LATITUDES)
def test_no_hour_of_sun_is_lost_or_counted_twice(latitude):
    path = sun_path(latitude)
    hours = sun_hours(sun_patches(latitude))
    by_month = np.bincount(path.month, minlength=12) * path.step
    assert hours.sum(axis=1) == pytest.approx(by_month)


@pytest.mark.parametrize("latitude", LATITUDES)
def test_every_place_on_earth_has_the_sun_for_a_little_over_half_the_year(latitude):
    # Astronomy: half the year, and some minutes a day for the air's lift.
    assert sun_hours(sun_patches(latitude)).sum() == pytest.approx(4380, rel=0.05)


def test_some_months_alone_have_the_hours_that_they_have_in_the_year():
    winter = sun_hours(sun_patches(52.0, winter_months(52))).sum(axis=1)
    year = sun_hours(sun_patches(52.0)).sum(axis=1)
    inside = np.isin(np.arange(12), winter_months(52))
    assert winter == pytest.approx(np.where(inside, year, 0))


def test_the_sun_stands_on_the_equators_side():
    for latitude, noon_bearing in ((52.0, 180), (-36.0, 0)):
        path = sun_path(latitude)
        noon = np.abs(path.solar_hour - 12) < 0.1
        aside = (path.bearing[noon] - noon_bearing + 180) % 360 - 180
        assert (np.abs(aside) < 10).all()


def test_morning_and_evening_sun_is_in_the_east_and_in_the_west():
    patches = sun_patches(52.0)
    bearing = patches.sky.circle.bearings[patches.sky.column]
    assert morning_hours(patches)[:, bearing > 180].sum() == 0
    assert evening_hours(patches)[:, bearing < 180].sum() == 0


def test_an_even_day_has_four_hours_of_sun_before_ten():
    # Sunrise at six at the equinox: 31 days of March, about the equinox.
    assert morning_hours(sun_patches(0.0))[2].sum() / 31 == pytest.approx(4, abs=0.1)


def test_seasons_turn_with_the_hemisphere():
    for months in (summer_months, winter_months):
        assert sorted((m + 6) % 12 for m in months(52)) == sorted(months(-36))
    for latitude in (52.0, -36.0):
        daily = sun_hours(sun_patches(latitude)).sum(axis=1) / 30
        assert daily[list(summer_months(latitude))].mean() > 12.5
        assert daily[list(winter_months(latitude))].mean() < 11


def test_the_polar_night_has_no_patches():
    assert sun_patches(80.0, (11,)).size == 0
    assert sun_hours(sun_patches(80.0))[11].sum() == 0
