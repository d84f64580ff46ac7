"""Features in GeoPackages and shapefiles, in any coordinate system."""

from collections.abc import Mapping
from typing import Any

import numpy as np
import pyogrio
import pyogrio.raw
import shapely
from pyogrio.errors import CRSError as LayerCRSError
from pyogrio.errors import DataLayerError, DataSourceError, FeatureError, FieldError, GeometryError
from pyproj import CRS
from pyproj.exceptions import CRSError
from shapely.errors import ShapelyError

from model.survey.attribute import Wrong
from model.survey.drafts import Draft, known_fields
from model.survey.faults import shown
from model.survey.folder import Folder
from model.survey.frame import Frame

UNREADABLE = (
    LayerCRSError,
    DataLayerError,
    DataSourceError,
    FeatureError,
    FieldError,
    GeometryError,
    ShapelyError,
    ValueError,
    RuntimeError,
)
# what the two formats begin with; another format in disguise could point GDAL at other files
BEGINNINGS = {".gpkg": b"SQLite format 3\0", ".shp": b"\x00\x00\x27\x0a"}
LONGEST_FIELD = 10  # letters of a field's name in a shapefile


def layer_drafts(folder: Folder, name: str, frame: Frame) -> list[Draft]:
    """The features of every layer in local metres; what cannot be read is noted."""
    path = folder.path / name
    beginning = BEGINNINGS[path.suffix]
    try:
        with path.open("rb") as file:
            if file.read(len(beginning)) != beginning:
                raise ValueError(f"not a {path.suffix} file inside")
        layers = [layer for layer, geometry in pyogrio.list_layers(path) if geometry is not None]
        drafts: list[Draft] = []
        for layer in layers:
            drafts += _drafts_of_layer(folder, name, layer, (frame, len(drafts)))
    except (*UNREADABLE, OSError) as error:
        wrong = Wrong(f"a broken file ({str(error)[:60]})", "layers of features", "exporting again")
        folder.fault(name, None, "", wrong)
        return []
    return drafts


def _drafts_of_layer(
    folder: Folder, name: str, layer: str, place: tuple[Frame, int]
) -> list[Draft]:
    frame, before = place
    meta, _, geometries, columns = pyogrio.raw.read(folder.path / name, layer=layer)
    crs = _crs(folder, name, meta)
    names = [_full_name(str(field), name) for field in meta["fields"]]
    if crs is None or not len(geometries):
        return []
    drafts = []
    for number, outline in enumerate(shapely.from_wkb(geometries)):
        row = before + number + 1
        fields = {
            field: _plain(column[number]) for field, column in zip(names, columns, strict=True)
        }
        if outline is None:
            wrong = Wrong("nothing", "a geometry", "drawing it or deleting the row")
            folder.fault(name, row, "geometry", wrong)
        else:
            drafts.append(Draft(name, row, frame.local(outline, crs), fields))
    return drafts


def _crs(folder: Folder, name: str, meta: Mapping[str, Any]) -> CRS | None:
    try:
        return CRS.from_user_input(meta["crs"])
    except CRSError:
        wrong = Wrong(shown(meta["crs"]), "a coordinate system", "assigning it in a GIS (.prj)")
        folder.fault(name, None, "crs", wrong)
        return None


def _full_name(field: str, file: str) -> str:
    """A field's name, a shapefile's shortened one made whole."""
    if file.endswith(".shp") and len(field) == LONGEST_FIELD:
        return next((name for name in known_fields() if name[:LONGEST_FIELD] == field), field)
    return field


def _plain(value: Any) -> object:
    """A cell as Python's own type; a number that is not there is None."""
    if isinstance(value, np.generic):
        value = value.item()
    return None if isinstance(value, float) and np.isnan(value) else value
