"""Drawn weather: the same bytes again, whole months, and normals at their limits."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.land.weather_series import Normals, annual_course, by_month, daily_series

NORMALS = Normals(
    tmin=np.array([1, 1, 2, 4, 7, 10, 12, 12, 9, 7, 4, 2]),
    tmax=np.array([7, 7, 10, 13, 16, 19, 21, 21, 18, 14, 10, 7]),
    tmin_sd=np.full(12, 4.0),
    tmax_sd=np.full(12, 3.5),
    rain=np.full(12, 60.0),
    rain_days=np.full(12, 12.0),
)


def test_the_same_seed_draws_the_same_bytes_and_another_seed_others():
    one, again, other = (daily_series(NORMALS, 5, seed) for seed in (3, 3, 4))
    for name in ("tmin", "tmax", "rain"):
        assert getattr(one, name).tobytes() == getattr(again, name).tobytes()
        assert getattr(one, name).tobytes() != getattr(other, name).tobytes()
    assert one.seed == 3


def test_years_have_three_hundred_and_sixty_five_days():
    series = daily_series(NORMALS, 4, seed=1)
    assert series.tmin.shape == series.tmax.shape == series.rain.shape == (4, 365)
    assert series.year.tolist() == [1, 2, 3, 4]
    assert series.day_of_year[[0, -1]].tolist() == [1, 365]


def test_nights_are_never_warmer_than_days_and_rain_is_never_negative():
    narrow = Normals(
        NORMALS.tmin, NORMALS.tmin + 2, NORMALS.tmin_sd, NORMALS.tmax_sd, NORMALS.rain, [1.0] * 12
    )
    series = daily_series(narrow, 20, seed=2)
    assert (series.tmin <= series.tmax).all()
    assert (series.rain >= 0).all()


@given(monthly=st.lists(st.floats(-20, 30), min_size=12, max_size=12))
def test_the_annual_course_keeps_every_months_mean(monthly):
    assert by_month(annual_course(monthly)) == pytest.approx(np.array(monthly), abs=1e-8)


@given(seed=st.integers(0, 1000), years=st.integers(2, 6))
@settings(max_examples=15, deadline=None)
def test_a_short_series_keeps_its_normals_too(seed, years):
    series = daily_series(NORMALS, years, seed)
    assert by_month(series.tmin).mean(axis=0) == pytest.approx(NORMALS.tmin, abs=0.3)
    assert by_month(series.tmax).mean(axis=0) == pytest.approx(NORMALS.tmax, abs=0.3)


def test_a_dry_month_stays_dry_and_the_rest_does_not():
    dry = np.where(np.arange(12) == 6, 0.0, 12.0)
    normals = Normals(*(NORMALS.tmin, NORMALS.tmax, NORMALS.tmin_sd, NORMALS.tmax_sd), 5 * dry, dry)
    monthly = by_month(daily_series(normals, 10, seed=1).rain).mean(axis=0)
    assert monthly[6] == 0
    assert (np.delete(monthly, 6) > 0).all()


def test_rain_every_day_is_possible():
    days = np.array([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31.0])
    wet = Normals(NORMALS.tmin, NORMALS.tmax, NORMALS.tmin_sd, NORMALS.tmax_sd, 3 * days, days)
    assert (daily_series(wet, 3, seed=1).rain[:, 30:] > 0).mean() > 0.999


def test_years_that_differ_more_are_drawn_when_the_normals_say_so():
    def years_apart(year_sd):
        normals = Normals(*list(vars(NORMALS).values())[:-1], year_sd=year_sd)
        series = daily_series(normals, 60, seed=5)
        return by_month((series.tmin + series.tmax) / 2).std(axis=0).mean()

    assert years_apart(None) < 1.6
    assert years_apart(np.full(12, 2.5)) == pytest.approx(2.5, rel=0.15)
