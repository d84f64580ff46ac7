"""Sizes follow soil and age."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from model.trees import full_size, size_at_age, traits
from tests.model.trees.shipped import CATALOGUE

ALL = traits(CATALOGUE, CATALOGUE.options())
FEW = traits(CATALOGUE, CATALOGUE.options()[::97])

metres = st.floats(0.5, 30)
years = st.floats(0, 100)
rates = st.floats(0.02, 1.5)
powers = st.floats(0.5, 3)


def test_ordinary_and_unknown_soil_leave_the_size_as_it_is():
    size = full_size(FEW, [0, np.nan])

    assert np.array_equal(size.height[:, :, 0], FEW.height)
    assert np.array_equal(size.spread[:, :, 1], FEW.spread)


@given(st.lists(st.floats(-1, 1), min_size=2, max_size=8))
def test_a_richer_soil_never_grows_a_smaller_tree(fertility):
    size = full_size(FEW, sorted(fertility))

    assert (np.diff(size.height, axis=2) >= -1e-12).all()
    assert (np.diff(size.spread, axis=2) >= -1e-12).all()


def test_poor_soil_shrinks_and_rich_soil_swells_every_option():
    height = full_size(ALL, [-1, 0, 1]).height

    assert (np.diff(height, axis=2) > 0).all()


@given(metres, years, years, rates, powers)
def test_a_tree_never_shrinks_nor_outgrows_its_full_size(full, age, more, rate, power):
    young, old = size_at_age(full, [age, age + more], rate, power, planted=0.4)

    assert young <= old + 1e-12
    assert young >= 0.4
    assert old <= full + 1e-12


@given(metres, rates, powers)
def test_an_old_tree_is_full_grown(full, rate, power):
    assert np.isclose(size_at_age(full, 2000, rate, power), full)


def test_sizes_at_many_ages_come_at_once():
    ages = np.arange(4)

    assert size_at_age(FEW.height[..., None], ages, FEW.growth_rate[:, None], 1.3).shape == (
        3,
        len(FEW.options),
        4,
    )
