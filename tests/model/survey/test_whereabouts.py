"""A latitude or longitude that cannot be right is told by its time zone or by its seasons."""

from dataclasses import replace

import pytest

from model.survey.whereabouts import TROPICS, summer_excess, wrong_seasons, wrong_zone
from tests.model.survey import examples

SITE = replace(examples.site(), latitude=53.3, longitude=-6.2, timezone="Europe/Dublin")


@pytest.mark.parametrize(
    ("latitude", "longitude"), [(-6.2, 53.3), (-53.3, -6.2), (53.3, 166.2)], ids=str
)
def test_a_place_far_from_the_town_of_its_zone_is_told(latitude, longitude):
    wrong = wrong_zone(replace(SITE, latitude=latitude, longitude=longitude))
    assert wrong is not None
    assert "Europe/Dublin" in wrong.found
    assert "signs" in wrong.mend


@pytest.mark.parametrize(
    ("zone", "latitude", "longitude"),
    [
        ("Europe/Dublin", 53.3, -6.2),
        # the west of China keeps the time of its east: Kashgar, 4,100 km from Shanghai (an atlas,
        # from memory)
        ("Asia/Shanghai", 39.5, 76.0),
        ("Pacific/Auckland", -45.9, 170.5),
        ("America/New_York", 41.0, -81.5),
        ("UTC", -6.2, 53.3),
    ],
)
def test_a_place_in_its_zone_is_passed(zone, latitude, longitude):
    assert wrong_zone(replace(SITE, latitude=latitude, longitude=longitude, timezone=zone)) is None


def test_weather_of_the_other_hemisphere_is_told_beyond_the_tropics():
    weather = examples.monthly_weather()
    assert summer_excess(weather.table) > 0  # July is warm in it
    assert wrong_seasons(replace(SITE, latitude=52.0), weather) is None
    wrong = wrong_seasons(replace(SITE, latitude=-52.0), weather)
    assert wrong is not None
    assert "south of the equator" in wrong.found
    assert wrong_seasons(replace(SITE, latitude=1 - TROPICS), weather) is None
