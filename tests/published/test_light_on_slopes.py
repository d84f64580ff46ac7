"""Clear-sky light on slopes against published figures and against pvlib, hour by hour."""

import numpy as np
import pandas as pd
import pytest
from pvlib import clearsky, irradiance
from pvlib.solarposition import get_solarposition

from model.land.clear_sky import clear_sky, extraterrestrial
from model.land.leaf_season import DAYS
from model.land.shade import Standing
from model.land.slope_light import ALBEDO, incidence, normals, slope_light

pytestmark = pytest.mark.published


def test_incidence_on_a_collector_duffie_beckman_example_1_6_1():
    # Duffie & Beckman, Solar Engineering of Thermal Processes, example 1.6.1 (latitude 43,
    # 13 February, 10:30 solar time, 45 degrees, 15 degrees west of south): 35 degrees; the sun's
    # place and 35.1762 are pvlib's for it.
    facing = normals([np.tan(np.radians(45))], [195.0])
    cosine = incidence(facing, [90 - 60.61855], [154.77793])[0, 0]
    assert np.degrees(np.arccos(cosine)) == pytest.approx(35.1762, abs=1e-3)


def test_incidence_of_the_worked_example_reda_andreas2004():
    # NREL/TP-560-34302: slope 30 degrees turned 10 degrees east of south; 25.18700.
    facing = normals([np.tan(np.radians(30))], [170.0])
    cosine = incidence(facing, [90 - 50.11162], [194.340241])[0, 0]
    assert np.degrees(np.arccos(cosine)) == pytest.approx(25.18700, abs=1e-4)


def test_parts_of_the_light_on_a_slope_liu_jordan1963():
    # Tilt 30 degrees to the south, sun 60 degrees from overhead due south, beam 800, level 500,
    # diffuse 100 W/m2, albedo 0.2: beam 692.8203, sky 93.30127, ground 6.698730.
    facing = normals([np.tan(np.radians(30))], [180.0])
    up = facing[0, 2]
    assert 800 * incidence(facing, [30.0], [180.0])[0, 0] == pytest.approx(692.8203, abs=1e-4)
    assert 100 * (1 + up) / 2 == pytest.approx(93.30127, abs=1e-5)
    assert 500 * ALBEDO * (1 - up) / 2 == pytest.approx(6.698730, abs=1e-6)


# Ineichen (2008), simplified Solis, 0.1 haze, 1 cm of water, sea level, 1364 W/m2 above the air,
# as pvlib has it: at zenith 10, 60 and 75 degrees.
@pytest.mark.parametrize(
    ("elevation", "beam", "diffuse"),
    [(80, 959.335, 129.126), (30, 779.566, 93.880), (15, 588.468, 66.275)],
)
def test_the_clear_sky_ineichen2008(elevation, beam, diffuse):
    assert clear_sky(elevation, 1364.0) == pytest.approx((beam, diffuse), abs=0.01)


@pytest.mark.parametrize("haze", [0.06, 0.2, 0.45])
def test_a_hazy_sky_is_pvlibs(haze):
    elevation = np.linspace(2, 90, 40)
    theirs = clearsky.simplified_solis(elevation, aod700=haze, dni_extra=1364.0)
    beam, diffuse = clear_sky(elevation, 1364.0, haze)
    assert beam == pytest.approx(theirs["dni"])
    assert diffuse == pytest.approx(theirs["dhi"])


def test_the_beam_above_the_air_spencer1971():
    day = np.arange(1, 366)
    theirs = irradiance.get_extra_radiation(day, solar_constant=1361.0, method="spencer")
    assert extraterrestrial(day) == pytest.approx(np.asarray(theirs), rel=1e-4)


@pytest.mark.parametrize("latitude", [52.0, -36.0])
@pytest.mark.parametrize(("slope", "aspect"), [(0.0, 0.0), (0.2, 180.0), (0.5, 315.0), (1.0, 80.0)])
def test_a_years_light_on_a_slope_is_pvlibs(latitude, slope, aspect):
    # Every ten minutes through pvlib: its sun, its clear sky, its isotropic transposition.
    times = pd.date_range("2025-01-01", "2026-01-01", freq="10min", inclusive="left", tz="UTC")
    sun = get_solarposition(times, latitude, 0)
    sun = sun[sun.apparent_elevation > 0]
    above = extraterrestrial(sun.index.day_of_year)
    sky = clearsky.simplified_solis(sun.apparent_elevation, dni_extra=above)
    theirs = irradiance.get_total_irradiance(
        np.degrees(np.arctan(slope)),
        aspect,
        sun.apparent_zenith,
        sun.azimuth,
        sky.dni,
        # The model's level light is its beam and its diffuse light, which differ by up to 4 W/m2
        # from the paper's own formula for the level.
        sky.dni * np.sin(np.radians(sun.apparent_elevation)) + sky.dhi,
        sky.dhi,
        albedo=ALBEDO,
        model="isotropic",
    )
    by_month = theirs.groupby(theirs.index.month).sum() / 6 * 3600e-6 / DAYS[:, None]
    ours = slope_light(np.zeros((1, 3)), [slope], [aspect], Standing(), latitude)
    assert ours.beam[:, 0] == pytest.approx(by_month.poa_direct.to_numpy(), rel=0.01, abs=0.02)
    assert ours.sky[:, 0] == pytest.approx(by_month.poa_sky_diffuse.to_numpy(), rel=0.01)
    assert ours.total[:, 0] == pytest.approx(by_month.poa_global.to_numpy(), rel=0.01, abs=0.02)
