"""Chill portions and Utah units against xclim, an independent climate library.

xclim turns degrees into kelvin with 273.15; the Dynamic Model was fitted with 273 (Erez et al.
1990), so xclim is given temperatures 0.15 lower. It counts the rates of the same hour, as we do.
"""

from pathlib import Path

import numpy as np
import pandas as pd
import pvlib
import pytest

from model.land.chill import chill_portions, utah_units

xarray = pytest.importorskip("xarray")
indices = pytest.importorskip("xclim.indices")

pytestmark = pytest.mark.published


def hourly(temperature):
    """Temperatures as xclim wants them, one calendar year long."""
    time = pd.date_range("2001-01-01", periods=len(temperature), freq="h")
    return xarray.DataArray(temperature, {"time": time}, ("time",), attrs={"units": "degC"})


def swing(middle, half):
    """A year of equal days."""
    return np.tile(middle + half * np.sin(2 * np.pi * (np.arange(24) - 9) / 24), 365)


def sand_point():
    """Typical year of Sand Point, Alaska (NREL TMY3, shipped with pvlib)."""
    path = Path(pvlib.__file__).parent / "data" / "703165TY.csv"
    weather, _ = pvlib.iotools.read_tmy3(path, coerce_year=1990, map_variables=True)
    return weather["temp_air"].to_numpy(float)


@pytest.mark.parametrize("year", [np.full(8760, 6.0), swing(6, 4.9), swing(10, 8), sand_point()])
def test_portions_agree_with_xclim(year):
    expected = indices.chill_portions(hourly(year - 0.15), freq="YS").to_numpy()
    assert chill_portions(year) == pytest.approx(expected[0], abs=1e-6)


@pytest.mark.parametrize("year", [swing(6.03, 4.9), sand_point() + 0.013])
def test_utah_units_agree_with_xclim(year):
    # Temperatures are kept off the classes' edges, where rounding decides.
    expected = indices.chill_units(hourly(year), freq="YS").to_numpy()
    assert utah_units(year) == pytest.approx(expected[0], abs=1e-6)
