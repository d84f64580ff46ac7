"""A figure may carry what it may be off by, in every format, and comes back with it."""

from dataclasses import replace

import pytest
from shapely.geometry import LineString, Point

from model.survey import Feature, read_site, write_site
from model.survey.drafts import Draft, checked_features
from model.survey.feature import same_feature
from model.survey.features_csv import csv_drafts, csv_text
from model.survey.kinds import KINDS
from model.survey.plus_minus import plus_minus_of, plus_minuses
from model.survey.site import same_site
from tests.model.survey.examples import features, folder_with, site

HEDGE = replace(features()[2], attributes=features()[2].attributes | {"height_m_plus_minus": 0.25})
MAIN = Feature(
    "buried_service",
    "Main",
    LineString([(0, 0), (30, 0)]),
    {"service": "water", "clearance_m": 3.0, "position_plus_minus_m": 1.5},
)


def faults_of(tmp_path, kind, geometry, **fields):
    folder = folder_with(tmp_path)
    checked_features(folder, [Draft("features.csv", 2, geometry, {"kind": kind, **fields})])
    return folder.faults


def test_a_plus_minus_comes_back_from_csv(tmp_path):
    folder = folder_with(tmp_path, features_csv=csv_text([HEDGE, MAIN]))
    back = checked_features(folder, csv_drafts(folder, "features.csv"))
    assert folder.faults == []
    assert all(map(same_feature, back, (HEDGE, MAIN)))
    assert back[0].plus_minus("height_m") == 0.25
    assert back[1].number("position_plus_minus_m") == 1.5


def test_a_plus_minus_comes_back_from_geojson_and_toml(tmp_path):
    one = replace(site(), features=(*features()[:2], HEDGE, MAIN), soil_plus_minus={"ph": 0.2})
    write_site(one, tmp_path)
    back = read_site(tmp_path)
    assert same_site(back, one)
    assert back.soil_plus_minus == {"ph": 0.2}
    assert "ph_plus_minus = 0.2" in (tmp_path / "site.toml").read_text()
    assert "height_m_plus_minus" in (tmp_path / "features.geojson").read_text()


def test_a_plus_minus_is_read_from_a_geopackage(tmp_path):
    import geopandas as gpd  # noqa: PLC0415 - slow to import, and used here alone

    write_site(replace(site(), features=(features()[0], HEDGE, MAIN)), tmp_path)
    table = gpd.read_file(tmp_path / "features.geojson")
    (tmp_path / "features.geojson").unlink()
    table.to_file(tmp_path / "features.gpkg", driver="GPKG")
    back = read_site(tmp_path).features
    assert back[1].plus_minus("height_m") == 0.25
    assert back[2].number("position_plus_minus_m") == 1.5


def test_what_was_not_said_is_not_written_and_not_known(tmp_path):
    assert "plus_minus" not in csv_text(features()[2:])
    assert features()[2].plus_minus("height_m") != features()[2].plus_minus("height_m")  # NaN
    write_site(site(), tmp_path)
    assert "plus_minus" not in (tmp_path / "site.toml").read_text()


@pytest.mark.parametrize(
    ("field", "value", "words"),
    [
        ("height_m_plus_minus", "a bit", "a number from 0"),
        ("height_m_plus_minus", -1, "a number from 0"),
        ("species_plus_minus", 1, "for a neighbour_tree only"),
        ("position_plus_minus_m", 1, "for a neighbour_tree only"),
    ],
)
def test_a_wrong_plus_minus_is_a_fault_in_words(tmp_path, field, value, words):
    tree = {"species": "oak", "height_m": 9, "crown_m": 6}
    [fault] = faults_of(tmp_path, "neighbour_tree", Point(1, 1), **tree, **{field: value})
    assert fault.field == field
    assert words in fault.expected


@pytest.mark.parametrize("kind", KINDS.values(), ids=lambda kind: kind.name)
def test_every_number_of_every_kind_may_carry_one_in_its_own_unit(kind):
    carried = {one.name: one.unit for one in plus_minuses(kind)}
    for figure in kind.attributes:
        assert (figure.name + "_plus_minus" in carried) == figure.is_number
        if figure.is_number:
            assert carried[figure.name + "_plus_minus"] == figure.unit


def test_words_carry_none():
    with pytest.raises(ValueError, match="with a number"):
        plus_minus_of(KINDS["gate"].attribute("width_m").__class__("use", "", ""))
