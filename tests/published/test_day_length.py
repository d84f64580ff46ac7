"""Declination and day length against published formulas and pvlib."""

import numpy as np
import pandas as pd
import pvlib
import pytest

from model.land.temperature import declination, sunrise_sunset

pytestmark = pytest.mark.published


def day_length(latitude, day, **horizon):
    rise, sunset = sunrise_sunset(latitude, day, **horizon)
    return sunset - rise


@pytest.mark.parametrize(
    ("day", "degrees"), [(1, -23.0586), (81, 0.3289), (172, 23.4520), (355, -23.4199)]
)
def test_declination_spencer1971(day, degrees):
    # Spencer (1971), Search 2:172; figures by pvlib 0.16.1.
    assert declination(day) == pytest.approx(degrees, abs=1e-3)


def test_declination_is_pvlibs_on_every_day():
    days = np.arange(1, 366)
    expected = np.degrees(pvlib.solarposition.declination_spencer71(days))
    assert declination(days) == pytest.approx(expected, abs=1e-4)


@pytest.mark.parametrize(
    ("latitude", "day", "hours"),
    [(50, 172, 16.150), (50, 355, 7.850), (52, 172, 16.497), (52, 355, 7.503)],
)
def test_geometric_day_length_duffie_beckman(latitude, day, hours):
    # Duffie & Beckman, Solar Engineering of Thermal Processes, equations 1.6.10 and 1.6.11.
    assert day_length(latitude, day, altitude=0) == pytest.approx(hours, abs=0.01)


@pytest.mark.parametrize(
    ("day", "hours"), [(1, 8.1516), (80, 12.1624), (172, 16.3730), (355, 8.0743)]
)
def test_day_length_with_refraction_almorox2005(day, hours):
    # Almorox, Hontoria & Benito (2005), Energy Conversion and Management 46:1465, latitude 50;
    # figures by the R package chillR 0.77.
    assert day_length(50, day) == pytest.approx(hours, abs=0.01)


def test_sunrise_is_within_minutes_of_the_almanacs():
    # pvlib's ephemeris (NREL SPA) for Greenwich's meridian: difference of setting and rising.
    times = pd.date_range("2023-01-15", periods=12, freq="30D", tz="UTC")
    for latitude in (-35.0, 0.0, 51.5):
        rows = pvlib.solarposition.sun_rise_set_transit_spa(times, latitude, 0.0)
        hours = (rows["sunset"] - rows["sunrise"]).dt.total_seconds().to_numpy() / 3600
        ours = day_length(latitude, times.day_of_year.to_numpy())
        assert ours == pytest.approx(hours % 24, abs=0.08)


def test_polar_day_and_night_have_no_sunrise():
    assert day_length(80, 172) == 24
    assert day_length(80, 355) == 0
    assert np.isfinite(day_length([-90, 90], 172)).all()
