"""GeoPackages and shapefiles in any system hold the same features as the GeoJSON."""

import sqlite3
from contextlib import closing
from dataclasses import replace

import geopandas
import pandas as pd
import pytest

from model.survey.feature import same_feature
from model.survey.features_file import read_features
from model.survey.folder import Folder
from model.survey.frame import Frame
from tests.model.survey.examples import LATITUDE, LONGITUDE, features

FRAME = Frame(LATITUDE, LONGITUDE)


def table(crs):
    records = [{"kind": one.kind, "name": one.name, **one.attributes} for one in features()]
    frame = geopandas.GeoDataFrame(
        pd.DataFrame(records), geometry=[one.geometry for one in features()], crs=FRAME.crs
    )
    return frame.to_crs(crs)


def in_order(read):
    names = [one.name for one in features()]
    return sorted(read, key=lambda one: names.index(one.name))


@pytest.mark.parametrize("crs", ["EPSG:27700", "EPSG:3857", "EPSG:4326", "EPSG:32630"])
def test_a_geopackage_in_any_system_holds_the_same_features(tmp_path, crs):
    table(crs).to_file(tmp_path / "features.gpkg", layer="survey")
    folder = Folder(tmp_path)
    read = read_features(folder, FRAME)
    assert folder.faults == []
    assert all(map(same_feature, read, features()))
    assert len(read) == len(features())


def test_every_layer_of_a_geopackage_is_read(tmp_path):
    whole, path = table("EPSG:27700"), tmp_path / "features.gpkg"
    whole[:2].to_file(path, layer="areas")
    whole[2:].to_file(path, layer="others")
    folder = Folder(tmp_path)
    read = read_features(folder, FRAME)
    assert folder.faults == []
    assert [one.origin[-9:] for one in read] == [f"feature {number}" for number in range(1, 5)]


@pytest.mark.filterwarnings("ignore:Column names longer", "ignore:Normalized")
def test_three_shapefiles_hold_the_same_features_though_their_names_are_cut(tmp_path):
    whole = table("EPSG:27700")
    for name, rows in (("areas", whole[:2]), ("lines", whole[2:3]), ("points", whole[3:])):
        rows.to_file(tmp_path / f"features_{name}.shp", encoding="utf-8")
    assert "full_crown" in geopandas.read_file(tmp_path / "features_points.shp").columns
    folder = Folder(tmp_path)
    read = read_features(folder, FRAME)
    assert folder.faults == []
    for one, other in zip(in_order(read), features(), strict=True):
        # a shapefile turns outlines clockwise, so the corners come in another order
        turned = replace(one, geometry=other.geometry)
        assert same_feature(turned, other)
        assert one.geometry.hausdorff_distance(other.geometry) < 0.002


@pytest.mark.filterwarnings("ignore:Column names longer", "ignore:Normalized")
def test_a_shapefile_without_its_system_is_a_fault(tmp_path):
    table("EPSG:27700")[3:].to_file(tmp_path / "features.shp")
    (tmp_path / "features.prj").unlink()
    folder = Folder(tmp_path)
    assert read_features(folder, FRAME) == ()
    assert folder.faults[0].field == "crs"


@pytest.mark.parametrize("keep", [0, 20, 1000, 20_000])
def test_a_cut_off_file_is_a_fault(tmp_path, keep):
    path = tmp_path / "features.gpkg"
    table("EPSG:27700").to_file(path)
    path.write_bytes(path.read_bytes()[:keep])
    folder = Folder(tmp_path)
    read_features(folder, FRAME)
    assert [fault.file for fault in folder.faults] == ["features.gpkg"]


def test_another_format_in_disguise_is_not_opened(tmp_path):
    (tmp_path / "features.gpkg").write_text(
        "<OGRVRTDataSource><OGRVRTLayer name='x'><SrcDataSource>/etc/hostname</SrcDataSource>"
        "</OGRVRTLayer></OGRVRTDataSource>"
    )
    folder = Folder(tmp_path)
    assert read_features(folder, FRAME) == ()
    assert folder.faults[0].found == "another format inside"


def test_a_row_without_a_place_is_a_fault(tmp_path):
    rows = table("EPSG:27700")
    rows.loc[1, "geometry"] = None
    rows.to_file(tmp_path / "features.gpkg")
    folder = Folder(tmp_path)
    read_features(folder, FRAME)
    assert [(fault.row, fault.field) for fault in folder.faults] == [(2, "geometry")]


@pytest.mark.filterwarnings("ignore:Column names longer", "ignore:Normalized")
def test_a_shapefile_with_a_garbled_system_is_a_fault(tmp_path):
    # pyogrio 0.13 raises UnboundLocalError on a .prj that is no text, found by damaging files
    table("EPSG:27700")[3:].to_file(tmp_path / "features.shp")
    text = (tmp_path / "features.prj").read_bytes()
    (tmp_path / "features.prj").write_bytes(text[:28] + b"\xf8" + text[29:])
    folder = Folder(tmp_path)
    assert read_features(folder, FRAME) == ()
    assert [fault.file for fault in folder.faults] == ["features.shp"]


@pytest.mark.filterwarnings("ignore:Column names longer", "ignore:Normalized")
def test_a_shapefile_whose_table_is_a_link_out_of_the_folder_is_not_opened(tmp_path):
    inside = tmp_path / "land"
    inside.mkdir()
    table("EPSG:27700")[3:].to_file(inside / "features.shp")
    (inside / "features.dbf").rename(tmp_path / "features.dbf")
    (inside / "features.dbf").symlink_to(tmp_path / "features.dbf")
    folder = Folder(inside)
    assert read_features(folder, FRAME) == ()
    assert [fault.file for fault in folder.faults] == ["features.dbf"]


def test_a_geopackage_is_read_without_a_file_written_beside_it(tmp_path):
    path = tmp_path / "features.gpkg"
    table("EPSG:27700").to_file(path, layer="survey")
    with closing(sqlite3.connect(path)) as file:
        file.execute("PRAGMA journal_mode = WAL")  # which puts files beside even to read
    before = path.read_bytes()
    folder = Folder(tmp_path)
    assert len(read_features(folder, FRAME)) == len(features())
    assert [one.name for one in tmp_path.iterdir()] == ["features.gpkg"]
    assert path.read_bytes() == before


@pytest.mark.filterwarnings("ignore:Column names longer", "ignore:Normalized")
def test_a_damaged_figure_of_a_shapefile_is_not_taken_for_another(tmp_path):
    table("EPSG:27700")[3:].to_file(tmp_path / "features.shp", encoding="utf-8")
    data = (tmp_path / "features.dbf").read_bytes()
    assert data.count(b"14.0") == 1  # the tree's height
    (tmp_path / "features.dbf").write_bytes(data.replace(b"14.0", b"1x.0"))
    folder = Folder(tmp_path)
    read_features(folder, FRAME)
    (fault,) = folder.faults
    assert fault.file == "features.shp"
    assert "1x.0" in fault.found
