"""Reference evapotranspiration: which method, and which way it moves."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.land.evapotranspiration import (
    Air,
    hargreaves,
    penman_monteith,
    reference_evapotranspiration,
)

DAY = np.arange(1, 366)
TMIN, TMAX = np.full((3, 365), 8.0), np.full((3, 365), 18.0)


def test_temperature_alone_is_judged_by_hargreaves():
    expected = hargreaves(TMIN, TMAX, 52, DAY)
    assert reference_evapotranspiration(TMIN, TMAX, 52, DAY, 60) == pytest.approx(expected)
    assert reference_evapotranspiration(TMIN, TMAX, 52, DAY, 60, Air()) == pytest.approx(expected)


def test_years_and_days_keep_their_axes():
    air = Air(humidity=np.full(365, 80.0))
    assert reference_evapotranspiration(TMIN, TMAX, 52, DAY, 60, air).shape == (3, 365)


@pytest.mark.parametrize("name", ["wind", "radiation"])
@given(value=st.floats(0.5, 20), more=st.floats(0, 5))
def test_more_wind_or_sun_never_dries_less(name, value, more):
    def used(figure):
        air = Air(humidity=np.array([60.0]), **{name: np.array([figure])})
        return reference_evapotranspiration([10.0], [22.0], 50, [180], 60, air)[0]

    assert used(value + more) >= used(value) - 1e-9


@given(humidity=st.floats(20, 100), more=st.floats(0, 50))
def test_damper_air_never_dries_more(humidity, more):
    def used(figure):
        air = Air(humidity=np.array([figure]))
        return reference_evapotranspiration([10.0], [22.0], 50, [180], 60, air)[0]

    # Damp air also holds heat back at night; over land in summer that is the smaller part.
    assert used(min(humidity + more, 100)) <= used(humidity) + 0.02


def test_hard_frost_and_polar_night_use_no_water():
    assert hargreaves(-30, -25, 60, 1) == 0
    assert penman_monteith(-30, -25, 0.04, -2.0, 0.0, 100) == 0


def test_an_unknown_temperature_stays_unknown():
    assert np.isnan(reference_evapotranspiration([np.nan], [20.0], 50, [180], 60)).all()
