"""A GeoTIFF in any system comes onto the site's metres as the ground it was made of."""

import numpy as np
import pytest
import rasterio
from pyproj import Transformer
from rasterio.transform import Affine

from model.survey.folder import Folder
from model.survey.frame import Frame
from model.survey.heights import RasterHeights, same_heights
from model.survey.heights_tif import geotiff_bytes, raster_heights
from tests.model.survey.examples import LATITUDE, LONGITUDE

FRAME = Frame(LATITUDE, LONGITUDE)
PLACES = np.meshgrid(np.linspace(-80, 80, 9), np.linspace(-80, 80, 9))


def ground(x, y):
    """A valley (north-south) on a slope to the east [m]."""
    return 60 + 0.08 * x + 0.0005 * y**2


def write_tif(path, crs, cell, size=301, dtype="float32", **more):
    """The ground, sampled at the centres of a raster about the origin in some system."""
    to_crs = Transformer.from_crs(FRAME.crs, crs, always_xy=True)
    east, north = to_crs.transform(0, 0)
    grid = Affine(cell, 0, east - size / 2 * cell, 0, -cell, north + size / 2 * cell)
    columns, rows = np.meshgrid(np.arange(size) + 0.5, np.arange(size) + 0.5)
    x, y = to_crs.transform(grid.c + grid.a * columns, grid.f + grid.e * rows, direction="INVERSE")
    layout = {"width": size, "height": size, "count": 1, "dtype": dtype, "crs": crs}
    with rasterio.open(path / "heights.tif", "w", transform=grid, **layout, **more) as target:
        target.write(ground(x, y).astype(dtype), 1)


@pytest.mark.parametrize(
    ("crs", "cell"), [("EPSG:27700", 1), ("EPSG:3857", 2), ("EPSG:4326", 1e-5), ("EPSG:32630", 1)]
)
def test_heights_in_any_system_are_those_of_the_ground(tmp_path, crs, cell):
    write_tif(tmp_path, crs, cell)
    folder = Folder(tmp_path)
    heights = raster_heights(folder, FRAME)
    assert folder.faults == []
    # twice bilinear over a curvature of 0.001 per m and cells of at most 2 m: within a millimetre
    # or two; float32 adds 4e-6 m; a shift of one cell would show as 80 mm
    assert np.abs(heights.surface(*PLACES) - ground(*PLACES)).max() < 0.005


def test_what_is_written_comes_back_the_same(tmp_path):
    x, y = -31.3 + 2.5 * np.arange(30), -20.7 + 2.5 * np.arange(20)
    z = ground(*np.meshgrid(x, y))
    z[3, 4] = np.nan
    heights = RasterHeights(x, y, z)
    (tmp_path / "heights.tif").write_bytes(geotiff_bytes(heights, FRAME))
    assert same_heights(raster_heights(Folder(tmp_path), FRAME), heights)


def test_rasterio_finds_the_same_heights_at_the_same_places(tmp_path):
    x, y = np.arange(0, 60, 2.0), np.arange(-20, 20, 2.0)
    (tmp_path / "heights.tif").write_bytes(
        geotiff_bytes(RasterHeights(x, y, ground(*np.meshgrid(x, y))), FRAME)
    )
    with rasterio.open(tmp_path / "heights.tif") as source:
        [[height]] = source.sample([(10.0, -16.0)])
    assert height == pytest.approx(ground(10, -16))


def test_a_wide_raster_is_cut_to_two_kilometres_and_its_cells_kept_few(tmp_path):
    write_tif(tmp_path, FRAME.crs.to_wkt(), 20, size=401)
    heights = raster_heights(Folder(tmp_path), FRAME)
    assert heights.x.min() == pytest.approx(-2000)
    assert heights.y.max() == pytest.approx(2000)


def test_no_data_is_not_known(tmp_path):
    write_tif(tmp_path, "EPSG:27700", 1, nodata=-9999)
    with rasterio.open(tmp_path / "heights.tif", "r+") as target:
        z = target.read(1)
        z[:, :10] = -9999
        target.write(z, 1)
    heights = raster_heights(Folder(tmp_path), FRAME)
    assert np.isnan(heights.z).any()
    assert np.nanmin(heights.z) > 0


@pytest.mark.parametrize("keep", [0, 200, 5000])
def test_a_cut_off_file_is_a_fault(tmp_path, keep):
    write_tif(tmp_path, "EPSG:27700", 1, compress="deflate")
    whole = (tmp_path / "heights.tif").read_bytes()
    (tmp_path / "heights.tif").write_bytes(whole[:keep])
    folder = Folder(tmp_path)
    assert raster_heights(folder, FRAME) is None
    assert "broken" in folder.faults[0].found


def test_a_text_in_disguise_cannot_point_at_other_files(tmp_path):
    write_tif(tmp_path, "EPSG:27700", 1)
    outside = tmp_path / "outside.tif"
    (tmp_path / "heights.tif").rename(outside)
    with rasterio.open(outside) as source:
        pointer = f"""<VRTDataset rasterXSize="{source.width}" rasterYSize="{source.height}">
          <SRS>EPSG:27700</SRS>
          <GeoTransform>{", ".join(map(str, source.transform.to_gdal()))}</GeoTransform>
          <VRTRasterBand dataType="Float32" band="1"><SimpleSource>
          <SourceFilename>{outside}</SourceFilename></SimpleSource></VRTRasterBand>
        </VRTDataset>"""
    (tmp_path / "heights.tif").write_text(pointer)
    with rasterio.open(tmp_path / "heights.tif") as source:
        assert source.read(1).max() > 50  # GDAL by itself would follow it
    folder = Folder(tmp_path)
    assert raster_heights(folder, FRAME) is None
    assert "broken" in folder.faults[0].found


def test_a_raster_without_its_system_or_elsewhere_or_out_of_range_is_a_fault(tmp_path):
    found = []
    write_tif(tmp_path, "EPSG:27700", 1)
    for frame in (FRAME, Frame(LATITUDE + 1, LONGITUDE)):
        folder = Folder(tmp_path)
        raster_heights(folder, frame)
        found += [fault.found for fault in folder.faults]
    with rasterio.open(tmp_path / "heights.tif", "r+") as target:
        target.write(np.full(target.shape, 30_000, "float32"), 1)
    folder = Folder(tmp_path)
    raster_heights(folder, FRAME)
    found += [fault.found for fault in folder.faults]
    assert found == ["none there", "heights from 30000 to 30000"]


def test_a_raster_without_extent_is_a_fault(tmp_path):
    # GDAL's own error class, not rasterio's, found by damaging files
    write_tif(tmp_path, "EPSG:27700", 1)
    with rasterio.open(tmp_path / "heights.tif", "r+") as target:
        target.transform = Affine(0.0, 0, 5, 0, 0.0, 5)
    folder = Folder(tmp_path)
    assert raster_heights(folder, FRAME) is None
    assert [fault.file for fault in folder.faults] == ["heights.tif"]
