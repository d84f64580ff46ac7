"""Shadows at a moment: they fall away from the sun, as long as geometry says."""

import numpy as np
import pytest

from model.shadows import shadows
from tests.model.small_site import LineString, feature, study

WALL = feature("wall", LineString([(10, 30), (50, 30)]), "the wall", height_m=4.0)
MIDSUMMER, MIDWINTER = 172, 355


def shaded(made, at, x, y):
    return at.share[made.ground.places.nearest(x, y)] < 0.5


@pytest.mark.parametrize(("latitude", "side"), [(52.0, 1), (-36.0, -1)])
def test_at_noon_a_wall_shades_the_side_away_from_the_equator(latitude, side):
    made = study([WALL], latitude=latitude, longitude=0.0, timezone="UTC")
    noon = shadows(made.ground, MIDWINTER if latitude > 0 else MIDSUMMER, 12.0)
    assert shaded(made, noon, 31, 30 + side * 1.2)
    assert not shaded(made, noon, 31, 30 - side * 1.2)


def test_a_shadow_is_as_long_as_the_walls_height_over_the_tangent_of_the_suns_height():
    made = study([WALL], longitude=0.0, timezone="UTC", cell=1.0)
    noon = shadows(made.ground, MIDWINTER, 12.0)
    length = 4.0 / np.tan(np.radians(noon.elevation))
    assert shaded(made, noon, 30.5, 30 + min(length, 28) - 1.5)
    if length < 26:
        assert not shaded(made, noon, 30.5, 30 + length + 1.5)


def test_the_clock_is_the_sites_own_with_its_summer_time():
    made = study(longitude=-5.75, timezone="Europe/London")
    summer, winter = (shadows(made.ground, day, 13.0) for day in (MIDSUMMER, MIDWINTER))
    assert summer.bearing < 172  # one o'clock in summer is twelve by Greenwich, earlier by the sun
    assert winter.bearing > 188
    assert summer.when == "21 June, 13:00"


def test_at_night_there_is_nothing_to_show():
    made = study()
    night = shadows(made.ground, MIDWINTER, 2.0)
    assert night.elevation < 0
    assert np.isnan(night.share).all()


def test_the_map_shows_the_shadows_of_the_moment_that_is_asked_for():
    made = study([WALL], longitude=0.0, timezone="UTC")
    made.param.update(layer="shade", day=MIDSUMMER, hour=12.0)
    layer = made.map_layer()
    assert "21 June, 12:00" in layer.label
    assert layer.values[made.ground.places.nearest(31, 31)] < 0.5
    made.hour = 2.0
    assert "the sun is down" in made.map_layer().label
