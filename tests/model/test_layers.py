"""Land layers written for a GIS: the right values at the right place, with unit and meaning."""

import numpy as np
import pytest
import rasterio
from pyproj import Transformer

from model.layers import LAYERS, write_layers
from model.survey.heights import Plane
from tests.model.small_site import study


@pytest.fixture(scope="module")
def written(tmp_path_factory):
    made = study(heights=Plane(10.0, 180.0, 50.0))
    folder = tmp_path_factory.mktemp("layers")
    return made, {path.stem: path for path in write_layers(made.site, made.ground, folder)}


def test_every_layer_says_its_unit_and_what_it_is(written):
    _, paths = written
    known = [layer for layer in LAYERS if layer.values(written[0].ground) is not None]
    assert set(paths) == {layer.name for layer in known}
    assert len(known) >= 18
    for layer in known:
        with rasterio.open(paths[layer.name]) as raster:
            assert raster.units == (layer.unit,)
            assert raster.descriptions == (layer.meaning,)
            assert raster.crs.is_projected


def test_a_layer_read_back_at_a_point_is_the_value_there(written):
    made, paths = written
    places = made.ground.places
    for x, y in ((5.0, 5.0), (31.0, 47.0)):
        place = places.nearest(x, y)
        with rasterio.open(paths["altitude"]) as raster:
            (value,) = next(raster.sample([(places.x[place], places.y[place])]))
        assert value == pytest.approx(made.ground.altitude[place], abs=1e-4)


def test_north_is_up_and_ground_that_falls_south_is_lower_there(written):
    with rasterio.open(written[1]["altitude"]) as raster:
        heights = raster.read(1)
    assert np.nanmean(heights[:5]) > np.nanmean(heights[-5:])


def test_a_layer_lies_at_the_sites_own_longitude_and_latitude(written):
    made, paths = written
    with rasterio.open(paths["slope"]) as raster:
        to_degrees = Transformer.from_crs(raster.crs, "OGC:CRS84", always_xy=True)
        longitude, latitude = to_degrees.transform(0.0, 0.0)
    assert longitude == pytest.approx(made.site.longitude, abs=1e-9)
    assert latitude == pytest.approx(made.site.latitude, abs=1e-9)


def test_nothing_is_known_outside_the_site(written):
    with rasterio.open(written[1]["slope"]) as raster:
        slope = raster.read(1)
    assert np.isnan(slope[0, 0])
    assert np.nanmax(slope) == pytest.approx(10.0, abs=1e-3)
