"""Sun and shadow among growing trees agree with the rest of the model and with geometry."""

import numpy as np
import pytest

from model.growth import chosen, leaders, stand_of
from model.growth.light import Light
from model.land.sun_patches import summer_months
from model.shadows import shadows
from tests.model.small_site import APPLE, LineString, feature, spot, study, tree

WALL = feature("wall", LineString([(10, 40), (50, 40)]), "the wall", height_m=4.0)
OAK = tree("oak", 30, 24, 14.0, 8.0, "the oak")
NOON = (172, 13.0)


def stood(features=(), apart=8.0):
    made = study(
        features, (APPLE,), spots=(spot("West", 20, 30), spot("East", 20 + apart, 30)), cell=1.0
    )
    return made, stand_of(made, leaders(made))


def test_without_planted_trees_the_shadows_are_the_studys():
    made, _ = stood([WALL, OAK])
    stand = stand_of(made, ())
    share, sun = Light(made, stand).shadows(stand.at(0, 1), *NOON)
    expected = shadows(made.ground, *NOON)
    np.testing.assert_allclose(share, expected.share)
    assert sun.when == expected.when


def test_a_trees_shade_grows_with_it():
    made, stand = stood()
    light = Light(made, stand)
    dark = [(1 - light.shadows(stand.at(y, 1), *NOON)[0]).sum() for y in (0, 4, 10, 30)]
    assert np.all(np.diff(dark) > 0)


def test_a_shadow_reaches_as_far_as_the_trees_height_over_the_tangent_of_the_suns_height():
    made = study((), (APPLE,), cell=0.5, longitude=0.0, timezone="UTC", spots=(spot("W", 30, 20),))
    stand = stand_of(made, chosen(made))
    crowns = stand.at(30, 1)
    share, sun = Light(made, stand).shadows(crowns, 80, 12.0)
    reach = crowns.height[0] / np.tan(np.radians(sun.elevation))
    away = (made.ground.places.y - 20)[share < 1]
    # The tip is round, so that the far end lies a little beyond the tip's own shadow.
    assert reach - 0.6 < away.max() < reach + 0.6


def test_the_sun_on_a_lone_tree_is_that_of_the_sunlight_factor():
    made = study([WALL, OAK], (APPLE,), spots=(spot("West", 20, 30),))
    stand = stand_of(made, chosen(made))
    hours = Light(made, stand).sun_hours(stand.at(40, 1))
    sun = made.ground.sun
    expected = sun.a_day(sun.strong, summer_months(made.ground.latitude))[made.place]
    assert hours[0] == pytest.approx(expected, abs=0.02)


def test_a_tree_takes_sun_from_another_but_not_from_itself():
    _, far = stood(apart=25.0)
    made, near = stood(apart=2.5)
    alone = Light(made, far).sun_hours(far.at(30, 1))
    together = Light(made, near).sun_hours(near.at(30, 1))
    assert (together < alone - 0.3).any()
    assert (Light(made, near).sun_hours(near.at(0, 1)) > together).any()


def test_at_night_there_is_nothing_to_show():
    made, stand = stood()
    assert np.isnan(Light(made, stand).shadows(stand.at(5, 1), 355, 2.0)[0]).all()
