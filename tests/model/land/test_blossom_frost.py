"""Frost on blossom: colder nights and earlier flowers are never safer."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from model.land.blossom_frost import (
    Stages,
    damage_chance,
    damage_margin,
    killing_temperature,
)

# From bud to fruitlet; invented figures of the usual size.
STAGES = Stages(start=(-30, -15, -5, 0, 10), kills=(-9, -5, -3, -2.2, -2.2), end=30)
nights = arrays(float, (3, 50), elements=st.integers(-80, 80).map(lambda tenth: tenth / 10))


@given(minimum=nights, colder=st.floats(0, 5), bloom=st.integers(0, 49))
def test_colder_nights_never_lower_the_chance(minimum, colder, bloom):
    days = np.full(3, float(bloom))
    chance = damage_chance(minimum, days, STAGES)
    assert damage_chance(minimum - colder, days, STAGES) >= chance


@given(minimum=nights, hardier=st.floats(0, 5), bloom=st.integers(0, 49))
def test_a_hardier_blossom_is_never_likelier_struck(minimum, hardier, bloom):
    days = np.full(3, float(bloom))
    hardy = Stages(STAGES.start, np.array(STAGES.kills) - hardier, STAGES.end)
    assert damage_chance(minimum, days, hardy) <= damage_chance(minimum, days, STAGES)


def test_an_early_flowerer_is_caught_where_a_late_one_escapes():
    # Common practice, no source.
    warming = np.tile(np.linspace(-6, 8, 120), (3, 1))
    assert damage_chance(warming, np.full(3, 30.0), STAGES) == 1
    assert damage_chance(warming, np.full(3, 90.0), STAGES) == 0


def test_frost_before_the_first_stage_and_after_the_last_does_no_harm():
    limits = killing_temperature(STAGES, [-31, -30, -10, 0, 30, 31, np.nan])
    assert limits == pytest.approx([-np.inf, -9, -4, -2.2, -2.2, -np.inf, -np.inf])


def test_seasons_without_bloom_are_left_out_and_none_at_all_is_unknown():
    minimum = np.zeros((3, 120))
    minimum[:2, 60] = -4
    bloom = np.array([60.0, np.nan, 60.0])
    assert damage_chance(minimum, bloom, STAGES) == 0.5
    assert np.isnan(damage_chance(minimum, np.full(3, np.nan), STAGES))


def test_a_night_exactly_at_the_limit_strikes():
    minimum = np.zeros((1, 120))
    minimum[0, 65] = -2.2
    assert damage_margin(minimum, [60.0], STAGES) == pytest.approx([0], abs=1e-12)
    assert damage_chance(minimum, [60.0], STAGES) == 1


def test_places_keep_their_axis():
    minimum = np.zeros((5, 120, 2)) + np.array([-4.0, 4.0])
    bloom = np.full((5, 2), 60.0)
    assert damage_chance(minimum, bloom, STAGES).tolist() == [1, 0]
