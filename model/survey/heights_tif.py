"""heights.tif: a GeoTIFF in any coordinate system, brought onto the site's metres, and written."""

import math

import numpy as np
import rasterio
from pyproj import CRS as PROJ
from rasterio.crs import CRS
from rasterio.io import DatasetReader, MemoryFile
from rasterio.transform import Affine
from rasterio.warp import Resampling, calculate_default_transform, reproject, transform

from model.survey.attribute import Wrong
from model.survey.faults import shown
from model.survey.folder import Folder
from model.survey.frame import Frame
from model.survey.heights import RasterHeights
from model.survey.settings import ALTITUDES
from model.survey.systems import outside

FILE = "heights.tif"
REACH = 2000.0  # m from the origin; hills further off are not kept
MOST_CELLS = 16_000_000  # all within reach in cells of 1 m
MOST_READ = 120_000_000  # a tile of 10 km by 10 km in cells of 1 m, and some more
MOST_IN_BLOCK = 20_000_000  # cells that are unpacked together
CUTTING = f"cutting the file to {REACH / 1000:g} km round the site"
TILING = "exporting the file again in tiles"
ON_THE_SPOT = 1e-4  # m; a raster whose corners move less than this already lies in the frame


def raster_heights(folder: Folder, frame: Frame) -> RasterHeights | None:
    """The heights, None with the faults noted."""
    try:
        # only this driver: a text file called .tif could point GDAL at other files
        with rasterio.open(folder.path / FILE, driver="GTiff") as source:
            wrong = _wrong_layout(source) or outside(PROJ.from_wkt(source.crs.to_wkt()), frame)
            heights = None if wrong else _heights(source, frame)
    except Exception as error:  # noqa: BLE001 - a damaged file makes GDAL raise errors of many classes
        heights = None
        wrong = Wrong(f"a broken file ({shown(str(error))})", "GeoTIFF", "exporting it again")
    wrong = wrong or _wrong_heights(heights)
    if wrong:
        folder.fault(FILE, None, "", wrong)
        return None
    return heights


def geotiff_bytes(heights: RasterHeights, frame: Frame) -> bytes:
    """The bytes of a GeoTIFF in the site's own frame, row 0 in the north as GIS programs expect."""
    width, height = _spacing(heights.x), _spacing(heights.y)
    corner = _grid(width, -height, heights.x[0] - width / 2, heights.y[-1] + height / 2)
    with MemoryFile() as memory:
        with memory.open(
            driver="GTiff",
            width=len(heights.x),
            height=len(heights.y),
            count=1,
            dtype="float64",
            crs=CRS.from_wkt(frame.crs.to_wkt()),
            transform=corner,
            nodata=np.nan,
            compress="deflate",
        ) as target:
            target.write(heights.z[::-1], 1)
        return bytes(memory.read())


def _spacing(centres: np.ndarray) -> float:
    return float((centres[-1] - centres[0]) / (len(centres) - 1)) if len(centres) > 1 else 1.0


def _wrong_layout(source: DatasetReader) -> Wrong | None:
    if source.crs is None:
        return Wrong("no coordinate system", "one, such as EPSG:4326", "assigning it in a GIS")
    if source.count != 1:
        return Wrong(f"{source.count} bands", "one band of heights", "exporting that band alone")
    if source.transform.is_identity:
        return Wrong("no place on the ground", "a GeoTIFF", "exporting it with its place")
    cells = source.width * source.height
    if cells > MOST_READ:
        found = f"{source.width:,} by {source.height:,} cells"
        return Wrong(found, f"at most {MOST_READ:,} in all", CUTTING)
    block = math.prod(source.block_shapes[0])
    if block > MOST_IN_BLOCK:
        return Wrong(f"blocks of {block:,} cells", f"at most {MOST_IN_BLOCK:,}", TILING)
    return None


def _wrong_heights(heights: RasterHeights | None) -> Wrong | None:
    known = heights.z[np.isfinite(heights.z)] if heights is not None else np.array([])
    if not len(known):
        expected = f"heights within {REACH:g} m of the origin"
        return Wrong("none there", expected, "exporting the part where the site lies")
    low, high = known.min(), known.max()
    if low < ALTITUDES[0] or high > ALTITUDES[1]:
        found = f"heights from {low:g} to {high:g}"
        expected = f"metres above sea level from {ALTITUDES[0]} to {ALTITUDES[1]}"
        return Wrong(found, expected, "setting the value that stands for no data")
    return None


def _heights(source: DatasetReader, frame: Frame) -> RasterHeights | None:
    local = CRS.from_wkt(frame.crs.to_wkt())
    if _lies_in(source, local):
        grid, (columns, rows) = source.transform, (source.width, source.height)
    else:
        grid, columns, rows = calculate_default_transform(
            source.crs, local, source.width, source.height, *source.bounds
        )
    grid, columns, rows = _clipped(grid, columns, rows)
    if columns < 1 or rows < 1:
        return None
    z = np.full((rows, columns), np.nan)
    reproject(
        rasterio.band(source, 1),
        z,
        dst_transform=grid,
        dst_crs=source.crs if _lies_in(source, local) else local,
        dst_nodata=np.nan,
        resampling=Resampling.bilinear,
    )
    z = z * source.scales[0] + source.offsets[0]
    x = grid.c + (np.arange(columns) + 0.5) * grid.a
    y = grid.f + (np.arange(rows) + 0.5) * grid.e
    return RasterHeights(x, y[::-1].copy(), z[::-1].copy())


def _lies_in(source: DatasetReader, local: CRS) -> bool:
    """Whether the raster is north-up in the local frame already, whatever its system is called."""
    if source.transform.b or source.transform.d or source.transform.e > 0:
        return False
    left, bottom, right, top = source.bounds
    x, y = transform(source.crs, local, [left, left, right, right], [bottom, top, bottom, top])
    moved = np.hypot(np.array(x) - [left, left, right, right], np.array(y) - [bottom, top] * 2)
    return bool((moved < ON_THE_SPOT).all())


def _clipped(grid: Affine, columns: int, rows: int) -> tuple[Affine, int, int]:
    """The grid cut to whole cells within reach, its cells made larger when they are too many."""
    first = max(0, int(np.floor((-REACH - grid.c) / grid.a)))
    last = min(columns, int(np.ceil((REACH - grid.c) / grid.a)))
    top = max(0, int(np.floor((REACH - grid.f) / grid.e)))
    bottom = min(rows, int(np.ceil((-REACH - grid.f) / grid.e)))
    columns, rows = last - first, bottom - top
    corner = _grid(grid.a, grid.e, grid.c + first * grid.a, grid.f + top * grid.e)
    if columns < 1 or rows < 1 or columns * rows <= MOST_CELLS:
        return corner, columns, rows
    times = (columns * rows / MOST_CELLS) ** 0.5
    coarse = _grid(corner.a * times, corner.e * times, corner.c, corner.f)
    return coarse, int(columns / times), int(rows / times)


def _grid(width: float, height: float, left: float, top: float) -> Affine:
    """A north-up grid; its height of a cell is negative, as rows run south."""
    return Affine(width, 0, left, 0, height, top)
