"""The sun's position against NREL's worked example and against pvlib over a year."""

import numpy as np
import pandas as pd
import pytest
from pvlib.irradiance import aoi
from pvlib.solarposition import get_solarposition

from model.land.sun_position import declination_and_hour_angle, sun_position

pytestmark = pytest.mark.published


def test_the_worked_example_reda_andreas2004():
    # Reda & Andreas (2004), NREL/TP-560-34302 (revised 2008), table A5.1: 17 October 2003,
    # 12:30:30 local time (UTC - 7 h), Golden, Colorado. The example is SPA's; ours is a shorter
    # series, good to 0.01 degrees. Its air is thinner (820 hPa), so the lift is left out.
    time, latitude, longitude = np.datetime64("2003-10-17T19:30:30"), 39.742476, -105.1786
    elevation, bearing = sun_position(time, latitude, longitude, refracted=False)
    declination, hour_angle = declination_and_hour_angle(time, longitude)
    assert elevation == pytest.approx(39.872046, abs=0.005)
    assert bearing == pytest.approx(194.340241, abs=0.01)
    assert declination == pytest.approx(-9.31434, abs=0.005)
    assert hour_angle == pytest.approx(11.10590, abs=0.005)
    assert aoi(30, 170, 90 - 39.888378, bearing) == pytest.approx(25.18700, abs=0.01)


@pytest.mark.parametrize(("latitude", "longitude"), [(52, -5.75), (-36.9, 144.3), (5, 100)])
@pytest.mark.parametrize("year", [2003, 2024, 2040])
def test_a_year_of_suns_is_pvlibs(latitude, longitude, year):
    times = pd.date_range(f"{year}-01-01", f"{year}-12-31 23:00", freq="157min", tz="UTC")
    theirs = get_solarposition(times, latitude, longitude, pressure=101000, temperature=10)
    elevation, bearing = sun_position(
        times.tz_localize(None).to_numpy(), latitude, longitude, refracted=False
    )
    up = theirs.elevation.to_numpy() > -1
    assert np.abs(elevation - theirs.elevation)[up].max() < 0.01
    turned = (bearing - theirs.azimuth.to_numpy() + 180) % 360 - 180
    # On the great circle: near overhead the bearing itself means little.
    assert np.abs(turned * np.cos(np.radians(elevation)))[up].max() < 0.01


def test_the_seen_sun_is_pvlibs():
    times = pd.date_range("2024-03-01", "2024-03-20", freq="7min", tz="UTC")
    theirs = get_solarposition(times, 52, 0, pressure=101000, temperature=10)
    elevation, _ = sun_position(times.tz_localize(None).to_numpy(), 52, 0)
    up = (theirs.apparent_elevation > 0).to_numpy()
    assert np.abs(elevation - theirs.apparent_elevation)[up].max() < 0.012


@pytest.mark.parametrize(
    ("day", "rise", "transit", "sunset"),
    [
        ("1996-07-05", "07:08:15", "12:04:36", "17:01:04"),
        ("2004-12-04", "04:38:57", "11:50:22", "19:02:03"),
    ],
)
def test_sunrise_noon_and_sunset_of_the_spa_calculator(day, rise, transit, sunset):
    # NREL's SPA web calculator, latitude -35, longitude 0, as kept in pvlib's own tests.
    at = [np.datetime64(f"{day}T{clock}") for clock in (rise, transit, sunset)]
    elevation, bearing = sun_position(np.array(at), -35, 0, refracted=False)
    # A minute of time is 0.25 degrees of turning; the upper edge rises at -0.8333 degrees.
    assert elevation[[0, 2]] == pytest.approx([-0.8333] * 2, abs=0.02)
    assert (bearing[1] + 180) % 360 - 180 == pytest.approx(0, abs=0.02)
