"""Where and when room runs out, against years worked out by hand."""

import math

import numpy as np
import pytest

from model.growth import chosen, leaders, stand_of
from model.growth.room import fixed_of, gaps, meetings, room_left
from tests.model.small_site import APPLE, LineString, feature, spot, study


def stood(apart=3.0, features=()):
    made = study(features, (APPLE,), spots=(spot("West", 20, 30), spot("East", 20 + apart, 30)))
    return made, stand_of(made, leaders(made))


def year_of_spread(stand, spread):
    """Year in which the first tree is so wide: the growth curve of Richards (1959) turned round."""
    full, rate, power = stand.full[1, 1, 0], stand.rate[0], stand.power[0]
    return -math.log(1 - (spread / full) ** (1 / power)) / rate


def test_two_equal_crowns_meet_when_each_is_as_wide_as_they_stand_apart():
    made, stand = stood(apart=3.0)
    met = [m for m in meetings(stand, fixed_of(made, stand), 1, 30) if m.second >= 0]
    assert len(met) == 1
    assert met[0].year == pytest.approx(year_of_spread(stand, 3.0), abs=0.02)


def test_a_crown_reaches_a_wall_when_its_radius_is_the_way_to_it():
    wall = feature("wall", LineString([(0, 32), (60, 32)]), "the wall", height_m=2.0, width_m=0.4)
    made, _ = stood(features=[wall])
    stand = stand_of(made, chosen(made))  # where the study itself would have no tree
    met = [m for m in meetings(stand, fixed_of(made, stand), 1, 30) if m.label == "the wall"]
    # 2 m to the middle of a wall 0.4 m thick leaves 1.8 m.
    assert [m.year for m in met] == pytest.approx([year_of_spread(stand, 3.6)], abs=0.02)


def test_crowns_that_never_meet_are_not_told():
    made, stand = stood(apart=20.0)
    assert meetings(stand, fixed_of(made, stand), 1, 30) == ()


def test_room_left_is_measured_from_edge_to_edge():
    made, stand = stood(apart=6.0)
    room = room_left(stand, fixed_of(made, stand), np.array([2.0, 3.0]))
    assert [left for left, _ in room] == pytest.approx([3.5, 3.5])
    assert room[0][1] == stand.labels[1]
    assert np.isinf(np.diag(gaps(stand, np.array([2.0, 3.0])))).all()
