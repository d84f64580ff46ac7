"""The side elevation: angles worked out by hand from metres."""

import math

import numpy as np
import pytest

from model.growth import chosen, stand_of
from model.growth.elevation import in_order, person_shape, still_shapes, tree_shapes
from model.growth.eyes import STANDING, bearing_of_trees, standing_eye, view_eyes
from model.growth.sight import share_covered
from model.land import sight
from tests.model.small_site import APPLE, LineString, Point, box, feature, spot, study

VIEW = feature(
    "view", Point(20, 10), "the bench", wish="keep", importance=1.0, bearing_deg=0.0,
    width_deg=40.0, low_deg=-10.0, high_deg=15.0, range_m=60.0, eye_height_m=1.2,
)  # fmt: skip


def made(*features):
    one = study([VIEW, *features], (APPLE,), spots=(spot("North", 20, 30),))
    return one, stand_of(one, chosen(one))


def degrees(rise, away):
    return math.degrees(math.atan2(rise, away))


def test_a_crown_is_as_high_and_as_wide_as_its_angles_from_the_eye():
    study_, stand = made()
    eye = standing_eye(study_, "here", 20, 10, 0.0)
    crowns = stand.at(12, 1)
    shape = next(s for s in tree_shapes(stand, crowns, eye) if s.kind == "crown")
    height, radius = crowns.height[0], crowns.spread[0] / 2
    assert shape.top == pytest.approx(degrees(height - STANDING, 20))
    assert shape.across.max() == pytest.approx(math.degrees(math.asin(radius / 20)))
    assert shape.across.min() == pytest.approx(-shape.across.max())
    # A fifth of its height is clear stem.
    assert shape.up.min() == pytest.approx(degrees(0.2 * height - STANDING, 20))


def test_a_tree_to_the_right_of_the_middle_stands_at_its_angle():
    study_, stand = made()
    eye = standing_eye(study_, "here", 10, 20, 0.0, 120.0)  # the tree stands 10 m east, 10 m north
    shape = next(s for s in tree_shapes(stand, stand.at(5, 1), eye) if s.kind == "crown")
    middle = (shape.across.min() + shape.across.max()) / 2
    assert middle == pytest.approx(45.0)
    assert bearing_of_trees(stand, 10, 20) == pytest.approx(45.0)


def test_a_wall_runs_from_its_foot_to_its_top():
    wall = feature("wall", LineString([(0, 40), (60, 40)]), "the wall", height_m=2.0, width_m=0.3)
    study_, _ = made(wall)
    eye = standing_eye(study_, "here", 20, 10, 0.0, 60.0)
    shape = next(s for s in still_shapes(study_, eye) if s.kind == "wall")
    assert shape.top == pytest.approx(degrees(2.0 - STANDING, 30))
    assert shape.up[np.abs(shape.across) < 0.3].min() == pytest.approx(degrees(-STANDING, 30))
    # At 30 degrees aside it is 30 / cos 30 m away.
    side = shape.up[np.isclose(shape.across, 30.0)]
    aside = 30 / math.cos(math.radians(30))
    assert sorted(side) == pytest.approx(
        [degrees(-STANDING, aside), degrees(2.0 - STANDING, aside)]
    )


def test_a_person_is_1_7_m_high_at_the_trees_distance():
    study_, stand = made()
    eye = standing_eye(study_, "here", 20, 10, 0.0)
    trees = tree_shapes(stand, stand.at(12, 1), eye)
    crown = next(s for s in trees if s.kind == "crown")
    person = person_shape(eye, crown, study_, stand)
    assert person.top == pytest.approx(degrees(1.7 - STANDING, 20), abs=1e-6)
    assert person.up.min() == pytest.approx(degrees(-STANDING, 20), abs=1e-6)


def test_the_nearest_is_painted_last():
    house = feature("building", box(10, 45, 30, 50), "the house", height_m=6.0)
    study_, stand = made(house)
    eye = standing_eye(study_, "here", 20, 10, 0.0)
    trees = tree_shapes(stand, stand.at(9, 1), eye)
    kinds = [shape.kind for shape in in_order(still_shapes(study_, eye) + trees)]
    assert kinds.index("building") < kinds.index("crown")


def test_a_house_is_not_drawn_from_its_own_window():
    house = feature("building", box(12, 2, 28, 10), "the house", height_m=6.0)
    study_, _ = made(house)
    eye = view_eyes(study_)[0]
    assert all(s.kind != "building" for s in still_shapes(study_, eye))


def test_one_tree_covers_as_much_of_a_view_as_the_views_factor_says():
    study_, stand = made()
    view = study_.ground.views.views[0]
    for year in (0, 5, 12, 40):
        crowns = stand.at(year, 1)
        expected = sight.share_covered(
            view.window, view.skyline, (stand.x[:1], stand.y[:1], stand.ground[:1]),
            crowns.height[:1], crowns.spread[:1],
        )[0, 0]  # fmt: skip
        assert share_covered(view, stand, crowns) == pytest.approx(expected, abs=0.006)


def test_a_tree_behind_another_covers_nothing_anew():
    one = study([VIEW], (APPLE,), spots=(spot("A", 20, 30),))
    trees = chosen(one)
    once, twice = stand_of(one, trees), stand_of(one, trees + trees)
    view = one.ground.views.views[0]
    assert share_covered(view, once, once.at(12, 1)) == share_covered(view, twice, twice.at(12, 1))
