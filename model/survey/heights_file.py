"""The heights of a folder: a GeoTIFF, spot heights, or one slope for the whole site."""

from model.survey import heights_csv, heights_tif
from model.survey.attribute import Wrong
from model.survey.folder import Folder
from model.survey.frame import Frame
from model.survey.heights import Heights, Plane
from model.survey.settings import FILE, Settings, complete

GEOTIFF_FILE = heights_tif.FILE


def read_heights(folder: Folder, settings: Settings, frame: Frame | None) -> Heights | None:
    """The heights measured, None when there are none or they are at fault (noted)."""
    name = folder.one_of([GEOTIFF_FILE, heights_csv.FILE], "heights")
    if name is not None and "heights" in settings:
        wrong = Wrong(f"one slope, and {name} as well", "one of the two", "deleting [heights]")
        folder.fault(FILE, None, "heights", wrong)
    if name == heights_csv.FILE:
        return heights_csv.spot_heights(folder)
    if name == GEOTIFF_FILE:
        return heights_tif.raster_heights(folder, frame) if frame else None
    return _plane(settings)


def _plane(settings: Settings) -> Plane | None:
    slope, general = complete(settings, "heights"), complete(settings, "")
    if slope is None or general is None:
        return None
    figures = (slope["slope_percent"], slope["aspect_deg"], general["altitude_m"])
    return Plane(*(float(figure) for figure in figures))
