"""Soil texture: the triangle is tiled, and clay slows the water."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import ndimage

from model.land.soil_texture import CENTRES, soil_water, soil_water_of, texture_class

SAND, CLAY = np.meshgrid(np.arange(101), np.arange(101))
INSIDE = SAND + CLAY <= 100


def test_every_whole_percent_of_the_triangle_has_one_of_the_twelve_classes():
    found = texture_class(SAND[INSIDE], CLAY[INSIDE])
    assert set(found.tolist()) == set(CENTRES)


def test_every_class_is_one_piece_of_the_triangle():
    names = texture_class(np.where(INSIDE, SAND, 0), np.where(INSIDE, CLAY, 0))
    found = np.where(INSIDE, names, "")
    for name in CENTRES:
        assert ndimage.label(found == name, np.ones((3, 3)))[1] == 1, name


@given(sand=st.floats(0, 100), clay=st.floats(0, 100), more=st.floats(0, 50))
def test_more_clay_never_drains_better(sand, clay, more):
    lean = min(clay, 100 - sand)
    rich = min(lean + more, 100 - sand)
    less, much = soil_water(sand, lean), soil_water(sand, rich)
    assert much.conductivity <= less.conductivity + 1e-9
    assert much.drainable <= less.drainable + 1e-9


@given(sand=st.floats(0, 100), clay=st.floats(0, 100), organic=st.floats(0, 8))
def test_a_soil_holds_more_when_full_than_when_drained_than_when_wilting(sand, clay, organic):
    water = soil_water(sand, min(clay, 100 - sand), organic)
    assert water.wilting_point < water.field_capacity < water.saturation < 1
    assert water.available > 0
    assert water.conductivity > 0


@pytest.mark.parametrize(("sand", "clay"), [(-1, 20), (20, -1), (60, 50)])
def test_shares_that_cannot_be_are_refused(sand, clay):
    with pytest.raises(ValueError, match="at most 100"):
        texture_class(sand, clay)


def test_an_unknown_name_is_answered_with_the_names_there_are():
    with pytest.raises(ValueError, match=r"found \['marl'\], expected one of sand, loamy sand"):
        soil_water_of(["loam", "marl"])


def test_patches_keep_their_shape():
    assert soil_water_of([["loam", "clay"], ["sand", "silt"]]).available.shape == (2, 2)
