"""Features in GeoJSON (RFC 7946), read in WGS 84 or the system named in it, written in WGS 84."""

import json
import math
from collections.abc import Iterable
from typing import Any

import numpy as np
import shapely
from pyproj import CRS
from shapely.errors import ShapelyError
from shapely.geometry import mapping, shape

from model.survey.attribute import Value, Wrong
from model.survey.drafts import MOST_FEATURES, Draft, too_many
from model.survey.faults import shown
from model.survey.feature import Feature
from model.survey.folder import Folder
from model.survey.frame import WGS84, Frame
from model.survey.settings import REACH
from model.survey.systems import note_outside

SWAPPED = Wrong(
    "latitude before longitude: latitude and longitude look swapped",
    "longitude first, as GeoJSON wants it, and the site's own two in site.toml the right way",
    "exchanging the two where they are swapped",
)
MOST_POINTS = 500_000  # corners of all features together, fifty times as many as were ever walked
LONGEST_NAME = 10_000  # letters of a coordinate system's name, which may be all of its definition
DECIMALS = 9  # of a degree: 0.06 mm at most, so that local metres come back within 1 mm


def geojson_drafts(folder: Folder, name: str, frame: Frame) -> list[Draft]:
    """The features of a GeoJSON file in local metres; what cannot be read is noted."""
    document = _document(folder, name)
    crs = _crs(folder, name, document, frame) if document is not None else None
    if document is None or crs is None:
        return []
    drawn = []
    for row, raw in enumerate(document["features"], start=1):
        degrees = _geometry(folder, name, row, raw)
        if degrees is not None:
            drawn.append((row, degrees, raw["properties"]))
    metres = frame.local(np.array([degrees for _, degrees, _ in drawn], dtype=object), crs)
    drafts = []
    for (row, degrees, properties), outline in zip(drawn, metres, strict=True):
        if crs.is_geographic and not _is_near(outline) and _would_be_near(frame, crs, degrees):
            folder.fault(name, row, "geometry", SWAPPED)
        else:
            drafts.append(Draft(name, row, outline, properties))
    return drafts


def geojson_text(features: Iterable[Feature], frame: Frame) -> str:
    """Features as GeoJSON in WGS 84, one feature a line, every attribute that is known."""
    lines = [json.dumps(_written(one, frame), ensure_ascii=False) for one in features]
    inner = ",\n".join(lines)
    return f'{{"type": "FeatureCollection", "features": [\n{inner}\n]}}\n'


def _written(feature: Feature, frame: Frame) -> dict[str, Any]:
    known = {name: value for name, value in feature.attributes.items() if not _is_nan(value)}
    return {
        "type": "Feature",
        "properties": {"kind": feature.kind, "name": feature.name, **known},
        "geometry": _rounded(mapping(frame.geographic(feature.geometry))),
    }


def _is_nan(value: Value) -> bool:
    return isinstance(value, float) and math.isnan(value)


def _rounded(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _rounded(inner) for key, inner in value.items()}
    if isinstance(value, (list, tuple)):
        return [_rounded(inner) for inner in value]
    return round(value, DECIMALS) if isinstance(value, float) else value


def _document(folder: Folder, name: str) -> dict[str, Any] | None:
    text = folder.text(name)
    if text is None:
        return None
    document = _parsed(folder, name, text)
    if document is None and text.strip() != "null":
        return None
    if not isinstance(document, dict) or not isinstance(document.get("features"), list):
        wrong = Wrong(shown(document), "a FeatureCollection with features", "exporting it as one")
        folder.fault(name, None, "features", wrong)
        return None
    count = len(document["features"])
    if count > MOST_FEATURES:
        folder.fault(name, None, "features", too_many(count))
        return None
    return document


def _parsed(folder: Folder, name: str, text: str) -> Any:
    """What a JSON text holds, None with the fault noted."""
    if text.count("[") > MOST_POINTS:
        expected = f"at most {MOST_POINTS:,} corners"
        wrong = Wrong(f"{text.count('['):,} brackets", expected, "drawing the outlines simpler")
        folder.fault(name, None, "geometry", wrong)
        return None
    try:
        return json.loads(text)
    except json.JSONDecodeError as error:
        row, found = error.lineno, f"a mistake ({error.msg})"
    except (ValueError, RecursionError) as error:
        row, found = None, f"a mistake ({str(error)[:60]})"
    folder.fault(name, row, "", Wrong(found, "GeoJSON", "exporting the file again"))
    return None


def _crs(folder: Folder, name: str, document: dict[str, Any], frame: Frame) -> CRS | None:
    member = document.get("crs")
    if member is None:
        return frame.system(WGS84)
    properties = member.get("properties") if isinstance(member, dict) else None
    crs_name = properties.get("name") if isinstance(properties, dict) else None
    is_name = isinstance(crs_name, str) and len(crs_name) <= LONGEST_NAME
    crs = frame.system(crs_name) if is_name else None
    if crs is None:
        expected = "the name of a coordinate system such as urn:ogc:def:crs:EPSG::4326"
        wrong = Wrong(shown(member), expected, "exporting the file in WGS 84")
        folder.fault(name, None, "crs", wrong)
        return None
    return None if note_outside(folder, name, crs, frame) else crs


def _geometry(folder: Folder, name: str, row: int, raw: Any) -> Any:
    """A feature's geometry as written, None with the fault noted."""
    if not isinstance(raw, dict) or not isinstance(raw.get("properties"), dict):
        wrong = Wrong(shown(raw), "a Feature with properties", "exporting the file again")
        folder.fault(name, row, "properties", wrong)
        return None
    try:
        return shape(raw["geometry"])
    except (
        *(ShapelyError, ValueError, TypeError, LookupError, AttributeError),
        *(ArithmeticError, RecursionError),
    ):
        found = shown(raw.get("geometry"))
        wrong = Wrong(found, "a geometry with all its coordinates", "drawing it again")
        folder.fault(name, row, "geometry", wrong)
        return None


def _would_be_near(frame: Frame, crs: CRS, degrees: Any) -> bool:
    exchanged = shapely.transform(degrees, lambda points: points[:, ::-1])
    return _is_near(frame.local(exchanged, crs))


def _is_near(metres: Any) -> bool:
    points = shapely.get_coordinates(metres)
    return bool(len(points) and (abs(points) < REACH).all())
