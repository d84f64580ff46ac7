"""Layers reckoned in tiles are those of the whole, here and on a Dask cluster."""

import subprocess
import sys

import numpy as np
import pytest
import rasterio

from model import tiled_layers
from model.ground import Ground
from model.ground.places import places_of
from model.layers import LAYERS, write_layers
from model.survey.heights import RasterHeights
from model.survey.wind import Wind
from model.tiled_layers import whole_cell, write_tiled_layers
from tests.model.small_site import (
    CATALOGUE,
    LineString,
    Point,
    box,
    feature,
    monthly_weather,
    site,
    tree,
)

# How far apart the two may be: rounding only, in the layer's own unit.
MOST_APART = 1e-5
QUICK = ("altitude", "slope", "aspect", "wind_left", "root_competition", "clear_distance")


def rough_land(**given):
    """Some 4 ha of invented rough ground, several tiles and margins wide, with a bit of all."""
    axis = np.arange(-10.0, 215.0, 5.0)
    x, y = np.meshgrid(axis, axis)
    z = 60 + 0.05 * y + 4 * np.sin(x / 30) * np.cos(y / 25)
    z += np.random.default_rng(4).normal(0, 0.1, z.shape)
    drawn = (
        feature("boundary", box(0, 0, 200, 200).difference(box(0, 0, 60, 60))),
        tree("oak", 150, 90, 14.0),
        tree("pear", 40, 160, 8.0),
        feature("hedge", LineString([(0, 120), (200, 130)]), species="hawthorn", height_m=3.0),
        feature("building", box(90, 90, 104, 100), height_m=6.0),
        feature("tap", Point(106, 92)),
        feature("animal_run", LineString([(0, 180), (200, 150)]), animal="deer"),
    )
    known = {
        "heights": RasterHeights(axis, axis, z), "cell": 5.0, "hub": (106.0, 88.0),
        "weather": monthly_weather(years=5), "wind": Wind(3.0, (1, 1, 2, 2, 3, 6, 4, 2)),
    }  # fmt: skip
    return site(drawn, **(known | given))


def read(paths):
    """Values of each layer by name, and all that its file says of them."""
    layers = {}
    for path in paths:
        with rasterio.open(path) as raster:
            said = raster.transform, raster.crs, raster.descriptions, raster.units, raster.tags()
            layers[path.stem] = raster.read(1), *said
    return layers


@pytest.fixture(scope="module")
def untiled(tmp_path_factory):
    land = rough_land()
    folder = tmp_path_factory.mktemp("untiled")
    return land, read(write_layers(land, Ground(land, CATALOGUE), folder))


def assert_alike(tiled, untiled):
    for name, (values, *said) in tiled.items():
        expected, *known = untiled[name]
        np.testing.assert_allclose(values, expected, rtol=1e-6, atol=MOST_APART, err_msg=name)
        assert said == known


def test_every_layer_in_tiles_is_that_of_the_whole(untiled, tmp_path):
    land, layers = untiled
    written = write_tiled_layers(land, CATALOGUE, tmp_path, size=17)
    assert written.cell == land.cell
    tiled = read(written.paths)
    assert set(tiled) == set(layers)
    assert_alike(tiled, layers)


def test_a_cluster_by_its_address_gives_the_same(untiled, tmp_path):
    distributed = pytest.importorskip("distributed")
    land, layers = untiled
    quick = [layer for layer in LAYERS if layer.name in QUICK]
    with distributed.LocalCluster(
        n_workers=1, threads_per_worker=2, processes=False, protocol="tcp", dashboard_address=None
    ) as cluster:
        address = cluster.scheduler_address
        assert address.startswith("tcp://")
        written = write_tiled_layers(land, CATALOGUE, tmp_path, 17, address, quick)
    tiled = read(written.paths)
    assert set(tiled) == set(QUICK)
    assert_alike(tiled, layers)


def test_very_large_land_is_reckoned_whole_in_larger_cells(untiled, tmp_path, monkeypatch):
    land, layers = untiled
    cells = places_of(land).cells
    monkeypatch.setattr(tiled_layers, "MOST_WHOLE", cells // 3)
    assert whole_cell(land) == 10.0
    walk = [layer for layer in LAYERS if layer.name in ("walking_time", "slope")]
    written = write_tiled_layers(land, CATALOGUE, tmp_path, 17, None, walk)
    assert written.cell == 10.0
    tiled = read(written.paths)
    assert_alike({"slope": tiled["slope"]}, layers)
    coarse, fine = tiled["walking_time"][0], layers["walking_time"][0]
    both = np.isfinite(coarse) & np.isfinite(fine)
    # Twice the cell: walks by other doorsteps and corners, a few seconds apart.
    assert both.sum() > 0.9 * np.isfinite(fine).sum()
    assert np.median(np.abs(coarse - fine)[both]) < 15


def test_a_cluster_that_does_not_answer_is_said(tmp_path, monkeypatch):
    pytest.importorskip("distributed")
    monkeypatch.setattr(tiled_layers, "PATIENCE", "300ms")
    with pytest.raises(ValueError, match=r"127\.0\.0\.1:9: found no answer"):
        write_tiled_layers(rough_land(), CATALOGUE, tmp_path, 17, "tcp://127.0.0.1:9", LAYERS[:2])


def test_tiles_of_no_cells_are_refused(tmp_path):
    with pytest.raises(ValueError, match="0 cells a side, expected 1 or more"):
        write_tiled_layers(rough_land(), CATALOGUE, tmp_path, 0)


def test_dask_is_loaded_only_for_tiles():
    program = (
        "import sys, model.opening, model.tiled_layers;"
        "print([name for name in sys.modules if name.split('.')[0] in ('dask', 'distributed')])"
    )
    said = subprocess.run([sys.executable, "-c", program], check=True, capture_output=True)  # noqa: S603
    assert said.stdout.strip() == b"[]"


def test_without_dask_the_mend_is_said(tmp_path, monkeypatch):
    monkeypatch.setitem(sys.modules, "dask", None)
    with pytest.raises(ValueError, match=r"treestead\[large\]"):
        write_tiled_layers(rough_land(), CATALOGUE, tmp_path, 17, None, LAYERS[:2])
