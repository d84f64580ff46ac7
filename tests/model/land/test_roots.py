"""Roots: the decay curve, several neighbours, and means over a rooting circle."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.land.roots import combined, disc_mean, influence

DISTANCES = np.linspace(0, 40, 81)
SHARES = st.floats(0, 1)


@given(crown=st.floats(0.5, 15), reach=st.floats(0.5, 35), strength=SHARES)
def test_competition_falls_with_distance_from_full_strength_to_nothing(crown, reach, strength):
    competition = influence(DISTANCES, crown, reach, strength)
    assert (np.diff(competition) <= 1e-12).all()
    assert competition[0] == pytest.approx(strength)
    assert (competition[reach < DISTANCES] == 0).all()


def test_an_oak_troubles_a_young_tree_less_than_a_poplar_of_its_size():
    # Strengths 0.5 and 1.0: common practice, no source.
    oak, poplar = (influence(12, 5, 25, strength) for strength in (0.5, 1.0))
    assert oak < poplar


@given(present=st.lists(SHARES, min_size=1, max_size=6), added=SHARES)
def test_another_neighbour_never_lowers_the_competition(present, added):
    assert combined([*present, added]) >= combined(present)
    assert combined(present) <= 1


def test_a_circle_of_no_size_gives_the_cells_own_value():
    field = np.random.default_rng(1).random((8, 9))
    assert disc_mean(field, 2.0, [0.0])[0] == pytest.approx(field)


@given(radius=st.floats(0, 30), level=st.floats(0, 1))
@settings(deadline=None, max_examples=30)
def test_the_mean_of_an_even_field_is_the_field_to_its_edge(radius, level):
    assert disc_mean(np.full((12, 9), level), 1.5, [radius])[0] == pytest.approx(
        np.full((12, 9), level)
    )


def test_the_mean_is_what_adding_up_the_cells_gives():
    field = np.random.default_rng(2).random((15, 14))
    field[3:6, 4:8] = np.nan
    row, column = np.indices(field.shape)
    inside = (np.hypot(row - 8, column - 6) <= 5.2) & np.isfinite(field)
    mean = disc_mean(field, 1.0, [5.2])[0]
    assert mean[8, 6] == pytest.approx(field[inside].mean(), abs=0.01)
    assert np.isnan(mean[4, 5])
    assert np.isfinite(mean[8, 6])


def test_a_wider_circle_about_a_tree_is_less_rooted():
    column = np.abs(np.arange(41) - 20.0)
    field = influence(np.hypot(column[:, None], column), 3, 12, 1.0)
    shares = disc_mean(field, 1.0, [1.0, 4.0, 8.0, 16.0])[:, 20, 20]
    assert (np.diff(shares) < 0).all()


def test_a_circle_larger_than_the_land_gives_the_lands_mean():
    field = np.random.default_rng(3).random((6, 7))
    assert disc_mean(field, 1.0, [100.0])[0] == pytest.approx(np.full((6, 7), field.mean()))


def test_a_field_that_is_nowhere_known_stays_unknown():
    assert np.isnan(disc_mean(np.full((3, 3), np.nan), 1.0, [0.0, 2.0])).all()
