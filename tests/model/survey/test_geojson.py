"""GeoJSON is read in any system and written so that a GIS reads the same."""

import json

import geopandas
import pytest
import shapely
from pyproj import Geod
from shapely.geometry import mapping

from model.survey.drafts import checked_features
from model.survey.feature import same_feature
from model.survey.frame import Frame
from model.survey.geojson import geojson_drafts, geojson_text
from tests.model.survey.examples import LATITUDE, LONGITUDE, features, folder_with

FRAME = Frame(LATITUDE, LONGITUDE)


def read(tmp_path, document):
    text = document if isinstance(document, str) else json.dumps(document)
    folder = folder_with(tmp_path, features_geojson=text)
    drafts = geojson_drafts(folder, "features.geojson", FRAME)
    return checked_features(folder, drafts), folder.faults


def collection(geometry, **properties):
    feature = {"type": "Feature", "properties": properties, "geometry": geometry}
    return {"type": "FeatureCollection", "features": [feature]}


def test_what_is_written_comes_back_the_same(tmp_path):
    back, faults = read(tmp_path, geojson_text(features(), FRAME))
    assert faults == []
    assert all(map(same_feature, back, features()))
    assert len(back) == len(features())


def test_writing_again_gives_the_same_text(tmp_path):
    text = geojson_text(features(), FRAME)
    assert geojson_text(read(tmp_path, text)[0], FRAME) == text


def test_geopandas_reads_the_same_places_and_attributes(tmp_path):
    # GDAL, an independent reader of the format
    path = tmp_path / "features.geojson"
    path.write_text(geojson_text(features(), FRAME))
    table = geopandas.read_file(path)
    assert table.crs.to_epsg() == 4326
    local = table.to_crs(FRAME.crs)
    for ours, theirs in zip(features(), local.geometry, strict=True):
        assert ours.geometry.equals_exact(theirs, 0.001)
    assert table["kind"].tolist() == [one.kind for one in features()]
    assert table["height_m"].tolist()[2:] == [2.0, 14.0]


def test_a_tree_paced_out_by_bearing_and_distance_stands_there(tmp_path):
    # Karney (2013) geodesics: 100 m on a bearing of 30 degrees
    longitude, latitude, _ = Geod(ellps="WGS84").fwd(LONGITUDE, LATITUDE, 30, 100)
    [tap], _ = read(
        tmp_path, collection({"type": "Point", "coordinates": [longitude, latitude]}, kind="tap")
    )
    assert tap.geometry.x == pytest.approx(50, abs=1e-4)
    assert tap.geometry.y == pytest.approx(86.6025, abs=1e-4)


@pytest.mark.parametrize("system", ["EPSG:27700", "urn:ogc:def:crs:EPSG::3857"])
def test_a_system_named_in_the_file_is_honoured(tmp_path, system):
    tree = features()[3]
    [moved] = geopandas.GeoSeries([tree.geometry], crs=FRAME.crs).to_crs(system)
    document = collection(
        mapping(moved), kind="neighbour_tree", species="lime", height_m=1, crown_m=1
    )
    document["crs"] = {"type": "name", "properties": {"name": system}}
    [back], faults = read(tmp_path, document)
    assert faults == []
    assert back.geometry.equals_exact(tree.geometry, 0.001)


def test_latitude_before_longitude_is_recognised(tmp_path):
    document = collection({"type": "Point", "coordinates": [LATITUDE, LONGITUDE]}, kind="tap")
    _, [fault] = read(tmp_path, document)
    assert fault.found.startswith("latitude before longitude")
    assert (fault.row, fault.field) == (1, "geometry")


POINT = {"type": "Point", "coordinates": [LONGITUDE, LATITUDE]}


@pytest.mark.parametrize(
    ("document", "row", "field"),
    [
        ("{", 1, ""),
        ("[" * 100_000, None, ""),
        ("[]", None, "features"),
        ('"text"', None, "features"),
        ({"type": "FeatureCollection"}, None, "features"),
        ({"features": [3]}, 1, "properties"),
        ({"features": [{"properties": None, "geometry": POINT}]}, 1, "properties"),
        (collection(None, kind="tap"), 1, "geometry"),
        (collection({"type": "Point"}, kind="tap"), 1, "geometry"),
        (collection({"type": "Point", "coordinates": ["a", "b"]}, kind="tap"), 1, "geometry"),
        (collection({"type": "Point", "coordinates": [1]}, kind="tap"), 1, "geometry"),
        (collection({"type": "Point", "coordinates": []}, kind="tap"), 1, "geometry"),
        (collection({"type": "Cube", "coordinates": [1, 2]}, kind="tap"), 1, "geometry"),
        (collection({"type": "LineString", "coordinates": [[1, 2]]}, kind="path"), 1, "geometry"),
        (collection({"type": "Point", "coordinates": [1e9, 1e9]}, kind="tap"), 1, "geometry"),
        (collection({"type": "Point", "coordinates": [None, 1]}, kind="tap"), 1, "geometry"),
        (
            (
                '{"features": [{"properties": {"kind": "tap"}, "geometry": '
                '{"type": "Point", "coordinates": [NaN, 1]}}]}'
            ),
            1,
            "geometry",
        ),
        ({**collection(POINT, kind="tap"), "crs": "EPSG:0"}, None, "crs"),
        # EPSG:5773 is a system of heights alone
        (
            {**collection(POINT, kind="tap"), "crs": {"properties": {"name": "EPSG:5773"}}},
            None,
            "crs",
        ),
        ({**collection(POINT, kind="tap"), "crs": {"properties": {"name": "moon"}}}, None, "crs"),
    ],
)
def test_what_is_no_geojson_is_named(tmp_path, document, row, field):
    found, faults = read(tmp_path, document)
    assert found == ()
    assert (row, field) in [(fault.row, fault.field) for fault in faults]


def test_not_known_is_left_out_of_the_file():
    document = json.loads(geojson_text(features(), FRAME))
    assert "full_height_m" not in document["features"][3]["properties"]
    assert shapely.geometry.shape(document["features"][1]["geometry"]).interiors
