"""Slope and aspect against published 3 x 3 windows and two independent programs."""

import shutil
import subprocess

import numpy as np
import pytest
import rasterio
from rasterio.transform import from_origin
from scipy.ndimage import sobel

from model.land.terrain import aspect, gradient, slope

pytestmark = pytest.mark.published

# Worked examples in Esri's manual, "How Slope works" and "How Aspect works" (method of Horn 1981),
# printed north row first, as maps are; ours have the south row first.
SLOPE_WINDOW = np.array([[50, 45, 50], [30, 30, 30], [8, 10, 10]], dtype=float)[::-1]
ASPECT_WINDOW = np.array([[101, 92, 85], [101, 92, 85], [101, 91, 84]], dtype=float)[::-1]


def test_slope_of_the_manuals_window_horn1981():
    rise = slope(SLOPE_WINDOW, cell=5)[1, 1]
    assert rise == pytest.approx(3.80032, abs=1e-5)
    assert np.degrees(np.arctan(rise)) == pytest.approx(75.25762, abs=1e-4)
    assert aspect(SLOPE_WINDOW, cell=5)[1, 1] == pytest.approx(180.754, abs=1e-3)


def test_aspect_of_the_manuals_window_horn1981():
    assert aspect(ASPECT_WINDOW, cell=1)[1, 1] == pytest.approx(92.64, abs=0.005)
    assert np.degrees(np.arctan(slope(ASPECT_WINDOW, 1)[1, 1])) == pytest.approx(82.991, abs=1e-3)


def test_gradient_is_scipys_sobel_filter():
    # Horn's weights are the Sobel operator's, an eighth of it per cell.
    z = np.random.default_rng(1).normal(size=(20, 30)).cumsum(axis=0)
    east, north = gradient(z, cell=2.5)
    inside = np.s_[1:-1, 1:-1]
    assert east[inside] == pytest.approx((sobel(z, axis=1) / 8 / 2.5)[inside])
    assert north[inside] == pytest.approx((sobel(z, axis=0) / 8 / 2.5)[inside])


@pytest.mark.skipif(not shutil.which("gdaldem"), reason="the program gdaldem is not installed")
def test_slope_and_aspect_are_gdals(tmp_path):
    z = np.random.default_rng(2).normal(size=(40, 50)).cumsum(axis=0).cumsum(axis=1) / 10
    path = tmp_path / "z.tif"
    profile = {"driver": "GTiff", "height": 40, "width": 50, "count": 1, "dtype": "float64"}
    place = {"transform": from_origin(0, 80, 2, 2), "crs": "EPSG:32630"}
    with rasterio.open(path, "w", **profile, **place) as file:
        file.write(z[::-1], 1)
    inside = np.s_[1:-1, 1:-1]
    ours = {"slope": np.degrees(np.arctan(slope(z, 2))), "aspect": aspect(z, 2)}
    for product, values in ours.items():
        out = tmp_path / f"{product}.tif"
        subprocess.run(["gdaldem", product, "-q", path, out], check=True)  # noqa: S603, S607 (the tester's own program)
        with rasterio.open(out) as file:
            theirs = file.read(1)[::-1]
        turned = (values - theirs + 180) % 360 - 180
        assert np.abs(turned[inside]).max() < 1e-3
