"""The weather file and the [weather] table make one record."""

import pytest

from model.survey.settings import read_settings
from model.survey.weather_csv import monthly_text
from model.survey.weather_file import read_weather
from tests.model.survey import epw_example
from tests.model.survey.examples import folder_with, monthly_weather

PLACE = 'name="A"\nlatitude=52\nlongitude=-3\naltitude_m=60\ntimezone="Europe/London"\n'


def record(tmp_path, settings="", **files):
    folder = folder_with(tmp_path, site_toml=PLACE + settings, **files)
    reading = read_weather(folder, read_settings(folder))
    assert folder.faults == []
    return reading


def test_normals_draw_thirty_years_with_a_seed_at_the_altitude_of_the_site(tmp_path):
    weather = record(tmp_path, weather_monthly_csv=monthly_text(monthly_weather().table)).record
    assert (weather.kind, weather.seed, weather.years) == ("monthly", 1, 30)
    assert weather.station_altitude == 60


def test_what_the_table_says_counts(tmp_path):
    settings = "[weather]\nseed=5\nyears=50\nstation_altitude_m=12\n"
    text = monthly_text(monthly_weather().table)
    weather = record(tmp_path, settings, weather_monthly_csv=text).record
    assert (weather.seed, weather.years, weather.station_altitude) == (5, 50, 12)


@pytest.mark.parametrize(
    ("settings", "altitude"), [("", 71), ("[weather]\nstation_altitude_m=5", 5)]
)
def test_an_epw_file_knows_its_station(tmp_path, settings, altitude):
    reading = record(tmp_path, settings, weather_epw=epw_example.text())
    assert reading.record.kind == "hourly"
    assert reading.record.seed is None
    assert reading.record.station_altitude == altitude
    assert (reading.station.latitude, reading.station.longitude) == (52.1, -3.2)


def test_no_file_is_no_weather(tmp_path):
    assert record(tmp_path) is None
