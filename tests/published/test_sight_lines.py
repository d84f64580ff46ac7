"""Lines of sight and covered views against closed forms and GDAL's viewshed."""

import shutil
import subprocess

import numpy as np
import pytest
import rasterio
from rasterio.transform import from_origin

from model.land.sight import hidden_below, share_covered
from model.land.skyline import skyline
from model.land.window import Window, elevation_angle, half_width

pytestmark = pytest.mark.published

AXIS = np.arange(0.5, 121)
LEVEL = np.zeros((len(AXIS), len(AXIS)))


@pytest.mark.parametrize(("distance", "height"), [(6, 3.26), (7, 3.52), (20, 6.90)])
def test_the_line_over_a_wall_rises_straight(distance, height):
    # Similar triangles: from an eye at 1.7 m over a wall of 3 m at 5 m, 1.7 + 0.26 d; the same
    # figures by gdal_viewshed 3.6.2.
    window = Window(60, 10, eye=1.7, bearing=0, width=20, low=-5, high=60, range=100)
    wall = [(50, 15, 70, 15, 3)]
    line = hidden_below(window, skyline(window, LEVEL, AXIS, AXIS, walls=wall), 60, 10 + distance)
    assert line == pytest.approx(height, abs=1e-3)


def test_what_a_tree_lets_be_seen_beyond_it():
    # Similar triangles: an eye at 1.6 m sees over a tree of 4 m at 20 m only what is 8.8 m or
    # higher at 60 m.
    window = Window(60, 10, eye=1.6, bearing=0, width=20, low=-5, high=60, range=100)
    tree = [(60, 30, 2, 0, 4)]
    line = hidden_below(window, skyline(window, LEVEL, AXIS, AXIS, crowns=tree), 60, 70)
    assert line == pytest.approx(8.8, abs=0.02)


def test_angles_of_a_tree_fifty_metres_off():
    # Visual angle 2 atan(h / 2D) of 5 m at 50 m, 5.72481 degrees; elevation 5.71059 degrees. A
    # round crown is seen by its tangents, 2 asin(r / D).
    assert 2 * elevation_angle(2.5, 50) == pytest.approx(5.72481, abs=1e-5)
    assert elevation_angle(5, 50) == pytest.approx(5.71059, abs=1e-5)
    assert 2 * half_width(2.5, 50) == pytest.approx(5.7320, abs=1e-4)


def test_a_far_crown_fills_half_an_ellipse():
    # Area of half an ellipse, pi / 4 of the rectangle round it; at eye level flat angles are small.
    window = Window(60, 10, eye=0, bearing=0, width=40, low=0, high=20, range=100)
    bare = skyline(window, LEVEL - 1, AXIS, AXIS)
    share = share_covered(window, bare, ([60.0], [90.0], [0.0]), [[6.0]], [[5.0]])
    rectangle = 2 * np.degrees(np.arcsin(2.5 / 80)) * np.degrees(np.arctan(6 / 80))
    assert share[0, 0] == pytest.approx(np.pi / 4 * rectangle / (40 * 20), rel=0.01)


@pytest.mark.parametrize("seed", range(4))
def test_covered_share_is_what_counting_rays_gives(seed):
    # An independent routine: a million lines of sight, each asked whether it passes the crown's
    # outline between window's edges, with a wall before it.
    random = np.random.default_rng(seed)
    x, height, spread = random.uniform(45, 75), random.uniform(3, 12), random.uniform(2, 10)
    window = Window(60, 10, eye=1.6, bearing=0, width=60, low=-5, high=12, range=100)
    wall = skyline(window, LEVEL, AXIS, AXIS, walls=[(55, 15, 90, 15, 1.8)])
    share = share_covered(window, wall, ([x], [40.0], [0.0]), [[height]], [[spread]])

    bearing = np.radians(np.linspace(-30, 30, 2001))[:, None]
    rise = np.tan(np.radians(np.linspace(-5, 12, 501)))
    distance, aside = np.hypot(x - 60, 30), bearing - np.arctan2(x - 60, 30)
    outline = 1 - (distance * np.sin(aside) / (spread / 2)) ** 2
    top = np.where(outline > 0, height * np.sqrt(np.maximum(outline, 0)), -np.inf)
    hits_crown = (1.6 + rise * distance < top) & (1.6 + rise * distance > 0)
    at_wall = 5 * np.tan(bearing)
    passes_wall = (at_wall < -5) | (1.6 + rise * 5 / np.cos(bearing) > 1.8)
    assert share[0, 0] == pytest.approx(np.mean(hits_crown & passes_wall), abs=0.004)


@pytest.mark.skipif(not shutil.which("gdal_viewshed"), reason="gdal_viewshed is not installed")
def test_ground_hides_what_gdals_viewshed_says_it_hides(tmp_path):
    x, y = np.meshgrid(AXIS, AXIS)
    z = 6 * np.sin(x / 15) * np.cos(y / 11) + 0.03 * y
    eye = z[30, 60] + 1.7
    window = Window(60.5, 30.5, eye, bearing=0, width=360, low=-90, high=90, range=140)
    line = hidden_below(window, skyline(window, z, AXIS, AXIS), x, y)
    source, out = tmp_path / "z.tif", tmp_path / "out.tif"
    size = {"height": len(AXIS), "width": len(AXIS), "count": 1, "dtype": "float64"}
    place = {"transform": from_origin(0, 121, 1, 1), "crs": "EPSG:32630"}
    with rasterio.open(source, "w", driver="GTiff", **size, **place) as file:
        file.write(z[::-1], 1)
    observer = ["-ox", "60.5", "-oy", "30.5", "-oz", "1.7"]
    asked = ["-q", "-tz", "4", "-cc", "0", "-om", "NORMAL", *observer]
    subprocess.run(["gdal_viewshed", *asked, source, out], check=True)  # noqa: S603, S607 (the tester's own program)
    with rasterio.open(out) as file:
        theirs = file.read(1)[::-1] > 0
    beyond = np.hypot(x - 60.5, y - 30.5) > 5
    differing = ((z + 4 > line) != theirs)[beyond].mean()
    assert 0.1 < 1 - theirs.mean() < 0.9
    assert differing < 0.005
