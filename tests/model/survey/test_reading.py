"""Whatever is in a folder, reading it gives a site or SurveyFaults that name every fault."""

import csv
import tempfile
from functools import cache
from pathlib import Path

import geopandas
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from model.survey import Site, SurveyFaults, read_site, same_site, site_faults, write_site
from model.survey.reading import ABSENT
from model.survey.soil import Soil
from tests.model.survey.examples import features, folder_with, site, starter_with_examples

MANY = settings(max_examples=80, deadline=None, suppress_health_check=list(HealthCheck))
PLACE = 'name="A"\nlatitude=52\nlongitude=-3\naltitude_m=60\ntimezone="Europe/London"\n'


@cache
def good_files(form):
    """A good folder's files by name: tables, GeoJSON and GeoTIFF, or a GeoPackage."""
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place) / "land"
        if form == "tables":
            starter_with_examples(folder)
        else:
            write_site(site(), folder)
        if form == "geopackage":
            records = [{"kind": one.kind, "name": one.name, **one.attributes} for one in features()]
            places = [one.geometry for one in features()]
            table = geopandas.GeoDataFrame(records, geometry=places, crs=site().frame.crs)
            (folder / "features.geojson").unlink()
            table.to_crs(27700).to_file(folder / "features.gpkg")
        return {path.name: path.read_bytes() for path in sorted(folder.iterdir())}


def outcome(files):
    """The faults of a folder with these files; any other error fails the test."""
    with tempfile.TemporaryDirectory() as place:
        for name, data in files.items():
            (Path(place) / name).write_bytes(data)
        faults = site_faults(place)
        if faults:
            with pytest.raises(SurveyFaults) as raised:
                read_site(place)
            assert list(raised.value.faults) == faults
        else:
            assert isinstance(read_site(place), Site)
        return faults


@MANY
@given(st.data(), st.sampled_from(["tables", "geojson", "geopackage"]))
def test_torn_and_overwritten_files_give_faults_and_never_another_error(data, form):
    files = dict(good_files(form))
    name = data.draw(st.sampled_from(sorted(files)))
    old = files[name]
    start = data.draw(st.integers(0, len(old)))
    stop = data.draw(st.integers(start, min(len(old), start + 40)))
    patch = data.draw(
        st.binary(max_size=8) | st.text('0-9.,\n"[]{}eE#=\0é', max_size=8).map(str.encode)
    )
    files[name] = old[:start] + patch + old[stop:]
    for fault in outcome(files):
        assert fault.file
        assert fault.expected
        assert fault.mend


NASTY = ("", "nan", "inf", "1e9", "-1e9", "1e999", "tall", "true", "2,5", "[]", "x" * 500)


@MANY
@given(st.data())
def test_a_wrong_cell_is_named_by_file_row_and_column(data):
    files = dict(good_files("tables"))
    name = data.draw(st.sampled_from([name for name in files if name.endswith(".csv")]))
    rows = list(csv.reader(files[name].decode().splitlines()))
    row = data.draw(st.integers(1, len(rows) - 1))
    column = data.draw(st.integers(0, len(rows[0]) - 1))
    if rows[0][column] not in ("x_m", "y_m", "z_m", "tmin", "tmax", "rain", "month"):
        return
    rows[row][column] = data.draw(st.sampled_from(NASTY))
    files[name] = "\n".join(",".join(f'"{cell}"' for cell in cells) for cells in rows).encode()
    named = [(fault.file, fault.row, fault.field) for fault in outcome(files)]
    assert (name, row + 1, rows[0][column]) in named


@MANY
@given(st.sampled_from(["latitude", "longitude", "altitude_m", "grid_m", "name"]), st.data())
def test_a_wrong_setting_is_named(key, data):
    nasty = ["nan", "inf", "1e9", "-1e9", "[]", "{}", "true", "1979-05-27", "9" * 400]
    nasty += ['""', "12"] if key == "name" else ['"tall"']
    raw = data.draw(st.sampled_from(nasty))
    lines = good_files("tables")["site.toml"].decode().splitlines()
    lines = [f"{key} = {raw}" if line.startswith(f"{key} =") else line for line in lines]
    files = {**good_files("tables"), "site.toml": "\n".join(lines).encode()}
    assert ("site.toml", key) in [(fault.file, fault.field) for fault in outcome(files)]


@pytest.mark.parametrize("form", ["tables", "geojson", "geopackage"])
def test_good_folders_are_good(form):
    assert outcome(good_files(form)) == []


@pytest.mark.parametrize("name", ["spots.csv", "features.csv", "weather_monthly.csv", "site.toml"])
def test_an_empty_file_is_a_fault_of_that_file(name):
    faults = outcome({**good_files("tables"), name: b""})
    assert name in [fault.file for fault in faults]


def test_faults_of_all_files_are_listed_at_once_by_file_and_row(tmp_path):
    folder_with(
        tmp_path,
        site_toml=PLACE.replace("52", "520"),
        spots_csv="spot,x_m,y_m\n,0,0\nB,x,y\n",
        options_csv="species,cultivar\n",
        features_csv="feature,kind,x_m,y_m\n1,barn,0,0\n",
        heights_csv="x_m,y_m,z_m\n0,0,high\n",
        weather_monthly_csv="month\n",
    )
    faults = site_faults(tmp_path)
    assert {fault.file for fault in faults} == {path.name for path in tmp_path.iterdir()}
    assert [fault.file for fault in faults] == sorted(fault.file for fault in faults)
    rows = [fault.row for fault in faults if fault.file == "spots.csv"]
    assert rows == [2, 3, 3]


def test_with_the_settings_alone_all_else_is_absent_in_words(tmp_path):
    folder_with(tmp_path, site_toml=PLACE)
    read = read_site(tmp_path)
    assert dict(read.absent) == ABSENT
    assert read.absent["weather"] == "no weather file: chill, heat, cold and rain are not judged"
    assert read.soil == Soil()
    assert read.folder == tmp_path


def test_assumed_soil_is_what_the_sentence_says():
    soil = Soil()
    words = f"{soil.fertility} {soil.texture} {soil.depth_cm:g} cm deep with pH {soil.ph:g}"
    assert words in ABSENT["soil"]


@pytest.mark.parametrize("zone", ["Europe/Londn", "../../etc/passwd", "GMT+25", ""])
def test_an_unknown_time_zone_is_a_fault(tmp_path, zone):
    folder_with(tmp_path, site_toml=PLACE.replace("Europe/London", zone))
    assert [fault.field for fault in site_faults(tmp_path)] == ["timezone"]


def test_latitude_and_longitude_exchanged_are_found_by_the_features(tmp_path):
    write_site(site(), tmp_path)
    text = (tmp_path / "site.toml").read_text()
    text = text.replace("latitude = 52.0", "latitude = -3.0", 1)
    (tmp_path / "site.toml").write_text(text.replace("longitude = -3.0", "longitude = 52.0", 1))
    faults = site_faults(tmp_path)
    told = [fault.file for fault in faults]
    assert told == ["features.geojson"] * len(features()) + ["site.toml"]  # which its zone tells


def test_no_folder_a_file_and_an_empty_folder_are_faults(tmp_path):
    (tmp_path / "file").write_text("x")
    (tmp_path / "empty").mkdir()
    for name, word in (("none", "no such folder"), ("file", "a file"), ("empty", "no such file")):
        with pytest.raises(SurveyFaults, match=word):
            read_site(tmp_path / name)


def test_a_path_may_be_given_as_text(tmp_path):
    write_site(site(), str(tmp_path))
    assert same_site(read_site(str(tmp_path)), site())
