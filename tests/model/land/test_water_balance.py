"""The root zone's water: nothing is lost, and rain, depth and care move the need the right way."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from model.land import water_balance as balance

DAYS = 40
rains = arrays(float, (2, DAYS), elements=st.integers(0, 30).map(float))
dryings = arrays(float, (2, DAYS), elements=st.integers(0, 9).map(float))
CARE = np.arange(DAYS) >= 5
# So that the thirsty part of a root zone holds more than the hottest day uses.
soils = st.floats(30, 300)


def watered(rain, drying, available):
    return balance.root_zone(rain, drying, np.ones(DAYS), available, CARE).watered


@given(rain=rains, drying=dryings, available=st.floats(10, 300), care=st.booleans())
def test_water_is_neither_made_nor_lost(rain, drying, available, care):
    days = balance.root_zone(rain, drying, np.ones(DAYS), available, care)
    gained = (rain + days.watered - days.used - days.drained).sum(axis=-1)
    assert gained == pytest.approx(-days.depletion[..., -1], abs=1e-6)
    assert (days.depletion >= 0).all()
    assert (days.depletion <= available + 1e-9).all()


@given(rain=rains, more=rains, drying=dryings, available=soils)
def test_more_rain_never_needs_more_watering(rain, more, drying, available):
    less_rain = watered(rain, drying, available).sum(axis=-1)
    more_rain = watered(rain + more, drying, available).sum(axis=-1)
    assert (more_rain <= less_rain + 1e-6).all()


@given(rain=rains, drying=dryings, available=soils, more=st.floats(0, 100))
def test_deeper_roots_never_need_more_watering(rain, drying, available, more):
    shallow = watered(rain, drying, available).sum(axis=-1)
    deep = watered(rain, drying, available + more).sum(axis=-1)
    assert (deep <= shallow + 1e-6).all()


@given(rain=rains, drying=dryings, available=st.floats(20, 300))
def test_a_tree_watered_from_the_start_never_suffers(rain, drying, available):
    days = balance.root_zone(rain, drying, np.ones(DAYS), available, True)
    share = balance.freely_taken(drying)
    assert (days.depletion <= share * available + 1e-9).all()


def test_a_newly_planted_tree_needs_watering_and_an_old_one_little():
    # Common practice, no source: a tree or tap near by matters in the first summers.
    random = np.random.default_rng(4)
    rain = np.where(random.random((20, 365)) < 0.35, random.gamma(0.8, 6, (20, 365)), 0)
    summer = 1.6 - 1.5 * np.cos(2 * np.pi * np.arange(365) / 365)
    drying = np.tile(summer, (20, 1))
    coefficient = balance.crop_coefficient(balance.POME_BARE, start=60)
    depth = balance.rooting_depth([0, 1, 10], full_depth=1.2)
    brought = balance.root_zone(rain, drying, coefficient, 140 * depth, np.arange(365) >= 60)
    first, second, tenth = balance.median_and_dry(balance.litres(brought.watered, np.ones(3)))[0]
    assert first > second > 2 * tenth


def test_soils_and_ages_keep_their_axes():
    days = balance.root_zone(np.zeros((3, 9)), np.ones((3, 9)), np.ones(9), np.ones((4, 2)) * 50)
    assert days.depletion.shape == (4, 2, 3, 9)
    assert balance.median_and_dry(balance.litres(days.watered, np.ones((4, 2)))).shape == (2, 4, 2)


def test_a_dry_year_needs_no_less_than_a_median_one():
    median, dry = balance.median_and_dry(np.arange(31.0))
    assert (median, dry) == (15, 27)


@given(years=st.floats(0, 60), more=st.floats(0, 60), full=st.floats(0.1, 2.5))
def test_roots_only_go_deeper_and_never_past_the_soil(years, more, full):
    now, later = balance.rooting_depth([years, years + more], full)
    assert now <= later <= full
