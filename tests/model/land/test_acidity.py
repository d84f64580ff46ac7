"""Soil acidity: what is too acid wants lime, what is too alkaline sulphur, never both."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.land.acidity import acidity_distance, for_hole, lime_need, sulphur_need
from model.land.soil_texture import CENTRES

acidities = st.floats(3.5, 9.5)


@given(ph=acidities, low=acidities, width=st.floats(0, 2), texture=st.sampled_from(list(CENTRES)))
def test_a_soil_wants_lime_or_sulphur_or_neither(ph, low, width, texture):
    distance = acidity_distance(ph, low, low + width)
    lime, sulphur = lime_need(distance, texture), sulphur_need(distance, texture)
    assert min(lime, sulphur) == 0
    assert (max(lime, sulphur) == 0) == (low <= ph <= low + width)


@given(ph=acidities, low=acidities, further=st.floats(0, 3))
def test_a_soil_further_from_the_range_never_needs_less(ph, low, further):
    acid = [acidity_distance(value, low, low + 1) for value in (ph - further, ph)]
    assert lime_need(acid[0], "loam") >= lime_need(acid[1], "loam")
    alkaline = [acidity_distance(value, low, low + 1) for value in (ph, ph + further)]
    assert sulphur_need(alkaline[1], "loam") >= sulphur_need(alkaline[0], "loam")


def test_heavier_soils_need_more_and_deeper_mixing_too():
    for need, distance in ((lime_need, -1), (sulphur_need, 1)):
        light, middling, heavy = need(distance, ["sand", "loam", "clay"])
        assert light < middling < heavy
        assert need(distance, "loam", 0.6) == pytest.approx(3 * need(distance, "loam", 0.2))


def test_a_place_two_units_off_needs_an_amendment():
    # Common practice, no source: two units off needs lime or sulphur, or another fruit.
    assert for_hole(lime_need(-2, "loam", 0.4), width=1.0) > 1
    assert for_hole(sulphur_need(2, "loam", 0.4), width=1.0) > 0.5


def test_patches_and_options_broadcast_and_the_unknown_stays_unknown():
    distance = acidity_distance([5.0, np.nan], [[5.5], [6.0]], [[6.5], [7.0]])
    assert distance.shape == (2, 2)
    assert np.isnan(lime_need(distance, ["loam", "clay"])[:, 1]).all()
