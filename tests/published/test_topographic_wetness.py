"""Topographic wetness against closed forms and pyflwdir, an independent hydrography library."""

import numpy as np
import pytest

from model.land import terrain
from model.land.wetness import contributing_area, topographic_wetness, without_pits

pytestmark = pytest.mark.published


@pytest.mark.parametrize("single", [True, False])
def test_plane_falling_south_beven1979(single):
    # ln(a / tan b) of Beven & Kirkby (1979) on a slope of 10 %: each row of 10 m adds 10 m of
    # land to every metre of width, so that a / tan b = 100 k in row k from the top. The program
    # r.topidx gives the same less 0.0007.
    _, y = np.meshgrid(np.arange(30) * 10.0, np.arange(8) * 10.0)
    z = 0.1 * y
    wetness = topographic_wetness(z, terrain.slope(z, 10), 10, single=single)
    expected = np.array([[4.6052], [5.2983], [5.7038], [5.9915], [6.2146]])
    # The sides of the grid send no water in; shared flow feels that one column a row.
    assert wetness[::-1][:5, 5:-5] == pytest.approx(np.repeat(expected, 20, axis=1), abs=0.002)


def test_a_summit_shares_its_water_quinn1991():
    # Hydrological Processes 5:59-79: fall times contour, 0.5 of a side straight and 0.354 aslant,
    # so that each straight neighbour gets 0.5 / (2 + 4 x 0.354 / 2 ** 0.5) of it, a sixth.
    z = np.zeros((3, 3))
    z[1, 1] = 1.0
    area = contributing_area(z, 1.0)
    assert area[[0, 1, 1, 2], [1, 0, 2, 1]] == pytest.approx(np.full(4, 1 + 1 / 6), abs=2e-4)
    assert area[[0, 0, 2, 2], [0, 2, 0, 2]] == pytest.approx(np.full(4, 1 + 1 / 12), abs=2e-4)


def test_cone_sheds_half_its_radius():
    # On a cone a circle of radius r drains pi r2 over 2 pi r: r / 2 of land to a metre of width.
    x, y = np.meshgrid(np.arange(-60, 61) * 2.0, np.arange(-60, 61) * 2.0)
    r = np.hypot(x, y)
    ring = (r > 40) & (r < 110)
    width = contributing_area(-0.1 * r, 2.0)[ring] / 2.0
    # A side of 2 m lets more through where the flow crosses it aslant: up to a sixth.
    assert width / (r[ring] / 2) == pytest.approx(np.full(ring.sum(), 1.1), abs=0.1)


def steepest_way(z):
    """Flow directions in the code of pyflwdir (row 0 in the north), cell by cell."""
    ways = [(0, 1), (1, 1), (1, 0), (1, -1), (0, -1), (-1, -1), (-1, 0), (-1, 1)]
    codes = {way: 2**number for number, way in enumerate(ways)}
    directions = np.zeros(z.shape, dtype=np.uint8)
    for row, column in np.ndindex(z.shape):
        steepest = 0.0
        for (down, right), code in codes.items():
            near = row + down, column + right
            if 0 <= near[0] < z.shape[0] and 0 <= near[1] < z.shape[1]:
                fall = (z[row, column] - z[near]) / np.hypot(down, right)
                if fall > steepest:
                    steepest, directions[row, column] = fall, code
    return directions


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_single_flow_agrees_with_pyflwdir(seed):
    pyflwdir = pytest.importorskip("pyflwdir")
    random = np.random.default_rng(seed)
    # A little roughness, so that no two ways are equally steep.
    z = without_pits(random.normal(size=(40, 50)), 1e-3) + random.uniform(0, 5e-4, (40, 50))
    # pyflwdir's own way down follows its filling; it is given the steepest way instead.
    expected = pyflwdir.from_array(steepest_way(z), ftype="d8").upstream_area(unit="cell")
    assert contributing_area(z, 1.0, single=True) == pytest.approx(expected)


@pytest.mark.parametrize("seed", [4, 5])
def test_filled_pits_agree_with_pyflwdir(seed):
    pyflwdir = pytest.importorskip("pyflwdir")
    z = np.random.default_rng(seed).normal(size=(40, 50))
    expected, _ = pyflwdir.dem.fill_depressions(z, nodata=-9999.0)
    assert without_pits(z) == pytest.approx(expected)
