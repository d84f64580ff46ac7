"""A survey with other figures is the same survey but for them."""

import numpy as np
import pytest
from shapely.geometry import LineString

from model.robustness.moved import moved_site, shifted, sized_traits
from model.trees import HIGH, LOW, TYPICAL
from tests.model.robustness.doubtful_site import clay, doubt, pipe, plain_study
from tests.model.small_site import tree


def test_a_line_moves_to_its_right():
    # by hand: going north, east is to the right; going east, south is
    assert shifted(LineString([(0, 0), (0, 9)]), 2.0).coords[:] == [(2, 0), (2, 9)]
    assert shifted(LineString([(0, 0), (9, 0)]), 2.0).coords[:] == [(0, -2), (9, -2)]
    assert shifted(LineString([(0, 0), (5, 5), (0, 0)]), 1.0).coords[0] == (1, 0)


def test_only_the_figure_in_doubt_moves():
    study = plain_study(pipe(), clay())
    moved = moved_site(study.site, {doubt(study, "pH of the clay"): -2.0})
    before, after = study.site.features, moved.features
    assert after[2].number("ph") == pytest.approx(4.9)
    assert after[2].number("depth_cm") == before[2].number("depth_cm")
    assert after[:2] == before[:2]
    assert study.site.features[2].number("ph") == 5.4


def test_a_full_grown_tree_stays_full_grown():
    study = plain_study(tree("apple", 50, 50, 5.0))
    moved = moved_site(study.site, {doubt(study, "height of the apple"): -2.0}).features[1]
    assert moved.number("full_height_m") == moved.number("height_m") == pytest.approx(4.25)


def test_only_the_typical_size_moves_so_wires_keep_their_clearance():
    traits = plain_study().traits
    moved = sized_traits(traits, {"MM106": 1.0})
    assert (moved.height[[LOW, HIGH]] == traits.height[[LOW, HIGH]]).all()
    assert moved.height[TYPICAL, 0] > traits.height[TYPICAL, 0]
    assert (moved.height[TYPICAL, 1:] == traits.height[TYPICAL, 1:]).all()
    assert np.isfinite(moved.spread).all()
