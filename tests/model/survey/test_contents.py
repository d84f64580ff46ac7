"""What is written says what the site says."""

from dataclasses import replace

import pytest

from model.survey import Plane, Soil
from model.survey.contents import fresh_features, fresh_settings, fresh_weather, settings_of
from model.survey.epw import epw_weather
from model.survey.weather import Weather
from tests.model.survey import epw_example
from tests.model.survey.examples import features, folder_with, site


def test_soil_that_was_only_assumed_is_not_written_as_known():
    assumed = replace(site(), soil=Soil(), absent={"soil": "assumed"})
    assert "soil" not in settings_of(assumed)
    assert "soil" in settings_of(replace(assumed, soil=Soil(ph=5)))
    assert "soil" in settings_of(site())


def test_one_slope_is_written_in_the_settings():
    tables = settings_of(replace(site(), heights=Plane(8, 180)))
    assert tables["heights"] == {"slope_percent": 8, "aspect_deg": 180}


def test_a_record_without_a_seed_gets_none():
    weather = replace(site().weather, seed=None)
    assert "seed" not in settings_of(replace(site(), weather=weather))["weather"]


def test_features_stay_in_a_csv_that_can_hold_them(tmp_path):
    assert list(fresh_features(site(), tmp_path)) == ["features.geojson"]
    folder_with(tmp_path, features_csv="x")
    assert list(fresh_features(site(), tmp_path)) == ["features.geojson"]
    without_hole = replace(site(), features=features()[:1])
    assert list(fresh_features(without_hole, tmp_path)) == ["features.csv"]
    assert fresh_features(replace(site(), features=()), tmp_path) == {}


@pytest.mark.parametrize(
    ("zone", "hours"), [("Europe/London", "0"), ("Asia/Kolkata", "5.5"), ("Nowhere/At all", "0")]
)
def test_an_hourly_record_tells_its_standard_time(tmp_path, zone, hours):
    folder = folder_with(tmp_path, weather_epw=epw_example.text())
    _, table = epw_weather(folder)
    place = replace(site(), timezone=zone, weather=Weather("hourly", table, 71.0))
    text = fresh_weather(place, tmp_path)["weather.epw"].decode()
    assert text.splitlines()[0].split(",")[8] == hours


def test_every_line_of_the_settings_is_explained(tmp_path):
    lines = fresh_settings(site(), tmp_path)["site.toml"].decode().splitlines()
    assert all("#" in line for line in lines if "=" in line)
