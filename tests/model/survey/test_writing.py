"""What is written is read back the same, and nothing already saved is lost."""

import tempfile
from dataclasses import replace
from pathlib import Path

import geopandas
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from model.survey import (
    Feature,
    Plane,
    Spot,
    SurveyFaults,
    Weather,
    new_folder,
    read_site,
    same_site,
    site_faults,
    write_site,
)
from model.survey.epw import epw_weather
from tests.model.survey import epw_example
from tests.model.survey.examples import features, folder_with, site, square, starter_with_examples
from tests.model.survey.strategies import sites

SLOW = settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def bytes_of(folder):
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file()
    }


@SLOW
@given(sites())
def test_any_site_comes_back_the_same(one):
    with tempfile.TemporaryDirectory() as folder:
        write_site(one, folder)
        assert site_faults(folder) == []
        assert same_site(read_site(folder), one)


@SLOW
@given(sites(), sites())
def test_any_site_may_take_the_place_of_any_other(one, other):
    with tempfile.TemporaryDirectory() as folder:
        write_site(one, folder)
        write_site(other, folder)
        assert same_site(read_site(folder), other)


@settings(SLOW, max_examples=20)
@given(sites(), st.booleans())
def test_writing_what_was_read_changes_no_byte(one, elsewhere):
    with tempfile.TemporaryDirectory() as first, tempfile.TemporaryDirectory() as second:
        write_site(one, first)
        before = bytes_of(Path(first))
        target = Path(second if elsewhere else first)
        write_site(read_site(first), target)
        assert bytes_of(target) == before


def test_every_part_of_a_full_site_comes_back(tmp_path):
    write_site(site(), tmp_path)
    assert same_site(read_site(tmp_path), site())
    assert read_site(tmp_path).absent == {}


def test_an_hourly_record_comes_back(tmp_path):
    _, table = epw_weather(folder_with(tmp_path / "from", weather_epw=epw_example.text()))
    hourly = replace(site(), weather=Weather("hourly", table, 71.0))
    write_site(hourly, tmp_path / "to")
    assert same_site(read_site(tmp_path / "to"), hourly)


def test_comments_stay_where_nothing_changed(tmp_path):
    new_folder(tmp_path)
    before = bytes_of(tmp_path)
    moved = replace(read_site(tmp_path), spots=(Spot("B", 30.0, 20.0),))
    write_site(moved, tmp_path)
    after = bytes_of(tmp_path)
    assert [name for name in before if after[name] != before[name]] == ["spots.csv"]


def test_a_file_no_longer_wanted_is_set_aside_and_never_lost(tmp_path):
    folder = starter_with_examples(tmp_path / "land")
    heights = (folder / "heights.csv").read_bytes()
    read = read_site(folder)
    write_site(replace(read, heights=Plane(3, 90)), folder)
    assert not (folder / "heights.csv").exists()
    write_site(read, folder)
    write_site(replace(read, heights=None), folder)
    kept = bytes_of(folder / "replaced")
    assert set(kept) == {"heights.csv", "2-heights.csv"}
    assert kept["heights.csv"] == heights


def test_a_changed_geopackage_is_set_aside_for_geojson(tmp_path):
    records = [{"kind": one.kind, "name": one.name, **one.attributes} for one in features()]
    places = [one.geometry for one in features()]
    table = geopandas.GeoDataFrame(records, geometry=places, crs=site().frame.crs)
    write_site(replace(site(), features=()), tmp_path)
    table.to_crs("EPSG:27700").to_file(tmp_path / "features.gpkg")
    read = read_site(tmp_path)
    before = bytes_of(tmp_path)
    write_site(read, tmp_path)
    assert bytes_of(tmp_path) == before
    write_site(replace(read, features=features()[:2]), tmp_path)
    assert sorted(path.name for path in tmp_path.glob("features*")) == ["features.geojson"]
    assert (tmp_path / "replaced" / "features.gpkg").read_bytes() == before["features.gpkg"]


def test_moving_the_origin_moves_the_degrees_not_the_metres(tmp_path):
    write_site(site(), tmp_path)
    moved = replace(read_site(tmp_path), latitude=51.5)
    write_site(moved, tmp_path)
    assert same_site(read_site(tmp_path), moved)


@pytest.mark.parametrize(
    "change",
    [
        {"spots": (Spot("A", 900.0, 0.0),)},
        {"spots": (Spot("A", 0.0, 0.0), Spot("A", 1.0, 0.0))},
        {"name": ""},
        {"latitude": 99.0},
        {"features": (Feature("tap", "", square(3)),)},
        {"features": (Feature("boundary", "", square(3)),)},
    ],
    ids=str,
)
def test_a_site_that_could_not_be_read_back_leaves_the_folder_as_it_was(tmp_path, change):
    write_site(site(), tmp_path)
    before = bytes_of(tmp_path)
    with pytest.raises(SurveyFaults):
        write_site(replace(site(), **change), tmp_path)
    assert bytes_of(tmp_path) == before


def test_a_text_that_would_come_back_changed_is_refused(tmp_path):
    with pytest.raises(ValueError, match="blank"):
        write_site(replace(site(), name=" A"), tmp_path)
    assert bytes_of(tmp_path) == {}


def test_a_full_disk_leaves_the_folder_as_it_was(tmp_path, monkeypatch):
    write_site(site(), tmp_path)
    before = bytes_of(tmp_path)

    def full(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", full)
    with pytest.raises(OSError, match="No space"):
        write_site(replace(site(), name="other"), tmp_path)
    assert bytes_of(tmp_path) == before


def test_other_files_and_a_folder_at_fault_are_left_alone(tmp_path):
    write_site(site(), tmp_path)
    (tmp_path / "cultivars.csv").write_text("mine")
    (tmp_path / "spots.csv").write_text("broken")
    write_site(site(), tmp_path)
    assert (tmp_path / "cultivars.csv").read_text() == "mine"
    assert same_site(read_site(tmp_path), site())


def test_a_link_is_replaced_and_not_written_through(tmp_path):
    outside = tmp_path / "outside.csv"
    outside.write_text("spot,x_m,y_m\n")
    folder = tmp_path / "land"
    write_site(site(), folder)
    (folder / "spots.csv").unlink()
    (folder / "spots.csv").symlink_to(outside)
    write_site(site(), folder)
    assert outside.read_text() == "spot,x_m,y_m\n"
    assert same_site(read_site(folder), site())
