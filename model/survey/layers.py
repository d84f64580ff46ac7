"""Features in GeoPackages and shapefiles, in any coordinate system."""

import re
import sqlite3
import warnings
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
import pyogrio
import pyogrio.raw
import shapely
from pyproj import CRS

from model.survey.attribute import Wrong
from model.survey.drafts import MOST_FEATURES, Draft, known_fields, too_many
from model.survey.faults import shown
from model.survey.folder import Folder
from model.survey.frame import Frame
from model.survey.systems import note_outside

# what the two formats begin with; another format in disguise could point GDAL at other files
BEGINNINGS = {".gpkg": b"SQLite format 3\0", ".shp": b"\x00\x00\x27\x0a"}
BESIDE = (".shx", ".dbf", ".prj", ".cpg")  # files that belong to a shapefile
LARGEST = 60_000_000  # bytes
RECKONED = re.compile(r"\bAS\s*\(|^\s*CREATE\s+VIRTUAL(?!.*\brtree\b)", re.IGNORECASE | re.DOTALL)
MOST_LAYERS = 100
HALF_READ = "parsed incompletely"  # how GDAL says that it took a damaged figure for another
LONGEST_FIELD = 10  # letters of a field's name in a shapefile


@dataclass(frozen=True)
class Layer:
    """A layer as GDAL gives it: its system, its fields' names, and a column of values for each."""

    crs: Any
    fields: list[str]
    outlines: np.ndarray
    columns: list[np.ndarray]


def layer_drafts(folder: Folder, name: str, frame: Frame) -> list[Draft]:
    """The features of every layer in local metres; what cannot be read is noted.

    They stand as truly as PROJ can bring their system to WGS 84: a national grid whose correction
    table is not on this computer may be off by some metres, all of them together.
    """
    drafts: list[Draft] = []
    before = 0
    for layer in _layers(folder, name):
        crs = _crs(folder, name, layer, frame)
        if crs is not None:
            drafts += _drafts(folder, name, layer, (frame, crs, before))
        before += len(layer.outlines)
    return drafts


def _layers(folder: Folder, name: str) -> list[Layer]:
    path = folder.path / name
    before = len(folder.faults)
    folder.present(f"{path.stem}{suffix}" for suffix in BESIDE if path.suffix == ".shp")
    if len(folder.faults) > before:
        return []
    wrong: Wrong | None
    try:
        wrong = _wrong_file(path)
        if wrong is None:
            layers, wrong = _read(path)
    except Exception as error:  # noqa: BLE001 - a damaged file makes pyogrio raise errors of any class
        wrong = Wrong(
            f"a broken file ({shown(str(error))})", "layers of features", "exporting again"
        )
    if wrong is None:
        return layers
    folder.fault(name, None, "", wrong)
    return []


def _wrong_file(path: Path) -> Wrong | None:
    """What is wrong with a file before it is read: its size, its format, what it makes us run."""
    sizes = [path.with_suffix(suffix) for suffix in (path.suffix, *BESIDE)]
    size = sum(file.stat().st_size for file in sizes if file.is_file())
    if size > LARGEST:
        return Wrong(f"{size:,} bytes", f"at most {LARGEST:,}", "leaving out what is far off")
    beginning = BEGINNINGS[path.suffix]
    with path.open("rb") as file:
        if file.read(len(beginning)) != beginning:
            return Wrong("another format inside", f"a {path.suffix} file", "exporting again")
    return _wrong_tables(path) if path.suffix == ".gpkg" else None


def _wrong_tables(path: Path) -> Wrong | None:
    """A view or a reckoned column is a query, which can be made to run for ever."""
    with closing(
        sqlite3.connect(f"{path.resolve().as_uri()}?mode=ro&immutable=1", uri=True)
    ) as file:
        for kind, name, text in file.execute("SELECT type, name, sql FROM sqlite_master"):
            if kind == "view" or (kind == "table" and RECKONED.search(str(text))):
                found = f"{shown(name)}, which is reckoned by the file"
                return Wrong(found, "tables of features", "exporting the layers as they are")
    return None


def _read(path: Path) -> tuple[list[Layer], Wrong | None]:
    """Every layer of a file; a GeoPackage from memory, as SQLite may write beside a file."""
    source = path.read_bytes() if path.suffix == ".gpkg" else path
    with warnings.catch_warnings(record=True) as warned:
        warnings.simplefilter("always")
        names = [name for name, geometry in pyogrio.list_layers(source) if geometry is not None]
        layers = [_layer(source, name, path.suffix) for name in names[:MOST_LAYERS]]
    count = sum(len(layer.outlines) for layer in layers)
    if count > MOST_FEATURES:
        return layers, too_many(count)
    half = next((str(one.message) for one in warned if HALF_READ in str(one.message)), None)
    if half is not None:
        return layers, Wrong(shown(half), "whole figures", "exporting again")
    if len(names) > MOST_LAYERS:
        return layers, Wrong(f"{len(names):,} layers", f"at most {MOST_LAYERS}", "leaving some out")
    return layers, None


def _layer(source: Path | bytes, name: str, suffix: str) -> Layer:
    most = MOST_FEATURES + 1
    meta, _, outlines, columns = pyogrio.raw.read(source, layer=name, max_features=most)
    fields = [_full_name(str(field), suffix) for field in meta["fields"]]
    return Layer(meta["crs"], fields, shapely.from_wkb(outlines), columns)


def _drafts(folder: Folder, name: str, layer: Layer, place: tuple[Frame, CRS, int]) -> list[Draft]:
    frame, crs, before = place
    local = frame.local(layer.outlines, crs)
    drafts = []
    for number, outline in enumerate(layer.outlines):
        row = before + number + 1
        if outline is None:
            wrong = Wrong("nothing", "a geometry", "drawing it or deleting the row")
            folder.fault(name, row, "geometry", wrong)
            continue
        cells = zip(layer.fields, layer.columns, strict=True)
        fields = {field: _plain(column[number]) for field, column in cells}
        drafts.append(Draft(name, row, local[number], fields))
    return drafts


def _crs(folder: Folder, name: str, layer: Layer, frame: Frame) -> CRS | None:
    crs = frame.system(layer.crs)
    if crs is None:
        wrong = Wrong(shown(layer.crs), "a coordinate system", "assigning it in a GIS (.prj)")
        folder.fault(name, None, "crs", wrong)
        return None
    return None if note_outside(folder, name, crs, frame) else crs


def _full_name(field: str, suffix: str) -> str:
    """A field's name, a shapefile's shortened one made whole."""
    if suffix == ".shp" and len(field) == LONGEST_FIELD:
        return next((name for name in known_fields() if name[:LONGEST_FIELD] == field), field)
    return field


def _plain(value: Any) -> object:
    """A cell as Python's own type; a number that is not there is None."""
    if isinstance(value, np.generic):
        value = value.item()
    return None if isinstance(value, float) and np.isnan(value) else value
