"""Reference evapotranspiration against refet and xclim, two independent libraries."""

import numpy as np
import pandas as pd
import pytest

from model.land import radiation_balance as radiation
from model.land.evapotranspiration import hargreaves, penman_monteith, wind_at_two_metres

pytestmark = pytest.mark.published

DAYS = np.array([15, 105, 196, 288])


@pytest.mark.parametrize("latitude", [-38.0, 14.0, 52.0])
@pytest.mark.parametrize("altitude", [5.0, 900.0])
def test_penman_monteith_agrees_with_refet(latitude, altitude):
    refet = pytest.importorskip("refet")
    tmin, tmax = np.array([-1.0, 5, 13, 7]), np.array([6.0, 16, 27, 14])
    vapour, wind = np.array([0.5, 0.8, 1.4, 1.0]), np.array([4.0, 2.0, 1.0, 3.0])
    sun = 0.5 * radiation.extraterrestrial(latitude, DAYS)
    # "refet" computes the sky's clearness in another way; "asce" is the paper's simple form.
    expected = refet.Daily(
        tmin=tmin, tmax=tmax, ea=vapour, rs=sun, uz=wind, zw=10, elev=altitude, lat=latitude,
        doy=DAYS, method="asce", rso_type="simple",
    ).eto()  # fmt: skip
    clear = radiation.clear_sky(latitude, DAYS, altitude)
    kept = radiation.net(sun, radiation.net_longwave(tmin, tmax, vapour, sun, clear))
    ours = penman_monteith(tmin, tmax, vapour, kept, wind_at_two_metres(wind, 10), altitude)
    assert ours == pytest.approx(expected, abs=0.01)


@pytest.mark.filterwarnings("ignore")
@pytest.mark.parametrize("latitude", [-38.0, 14.0, 52.0])
def test_hargreaves_agrees_with_xclim(latitude):
    xarray = pytest.importorskip("xarray")
    indices = pytest.importorskip("xclim.indices")
    time = pd.date_range("2001-01-01", periods=365, freq="D")
    season = np.cos(2 * np.pi * np.arange(365) / 365)
    tmin, tmax = 8 - 6 * season, 17 - 8 * season

    def daily(values):
        return xarray.DataArray(values, {"time": time}, ("time",), attrs={"units": "degC"})

    place = xarray.DataArray(latitude, attrs={"units": "degrees_north"})
    flux = indices.potential_evapotranspiration(
        tasmin=daily(tmin), tasmax=daily(tmax), lat=place, method="HG85"
    )
    expected = flux.to_numpy() * 86400  # kg/m2/s to mm/day
    ours = hargreaves(tmin, tmax, latitude, np.arange(1, 366))
    # xclim lets the heat of evaporation vary with temperature and takes a more exact sun.
    assert ours == pytest.approx(expected, abs=0.1)
    assert ours.mean() == pytest.approx(expected.mean(), rel=0.02)
