"""Every tree of the catalogue on one land: size, weeks, climate, soil, partners and score here."""

import numpy as np
import pytest

from model.study import Study
from model.survey.site import Soil
from model.trees_here import (
    is_served,
    judged_all,
    judged_best,
    partners_among,
    partners_of_one,
    trees_here,
)
from tests.model.small_site import APPLE, CATALOGUE, PLUM, monthly_weather, site, spot, study


@pytest.fixture(scope="module")
def made():
    return study(spots=(spot("one", 10, 10), spot("two", 50, 50)))


@pytest.fixture(scope="module")
def here(made):
    return trees_here(made)


def number(here, option):
    return here.options.index(option)


def test_trees_stay_smaller_on_poor_soil(here):
    poor = trees_here(study(soil=Soil(fertility="poor")))
    assert (poor.size.height <= here.size.height).all()
    assert (poor.size.height < here.size.height).any()


def test_a_mild_lowland_suits_apples_and_no_arctic_one_does(here):
    assert here.fits_climate[number(here, APPLE)]
    arctic = trees_here(study(weather=monthly_weather(-12.0)))
    assert "summer heat" in arctic.climate_faults(number(arctic, APPLE))
    assert not arctic.fits_climate[number(arctic, APPLE)]


def test_sour_shallow_soil_is_said_in_words():
    sour = trees_here(study(soil=Soil(ph=3.6, depth_cm=10.0)))
    words = sour.soil_words(number(sour, APPLE))
    assert "too acid" in words
    assert "too shallow" in words
    assert not sour.bears_soil[number(sour, APPLE)]


def test_warmth_brings_blossom_forward(here):
    warm = trees_here(study(weather=monthly_weather(2.0)))
    assert warm.bloom[number(warm, APPLE)] < here.bloom[number(here, APPLE)]


def test_without_weather_the_catalogues_days_stand_half_a_year_later_in_the_south():
    bare = {"weather": None, "absent": {"weather": "none given"}}
    north = trees_here(Study(site(**bare), CATALOGUE, (APPLE,)))
    south = trees_here(Study(site(latitude=-40.0, **bare), CATALOGUE, (APPLE,)))
    assert not north.bloom_is_here
    assert north.fits_climate.all()
    apple = number(north, APPLE)
    assert (south.bloom[apple] - north.bloom[apple]) % 365 == 182


def test_a_partner_serves_its_neighbours_but_not_its_own_kind_nor_another_fruit(made, here):
    alone = partners_among(here, made, [APPLE])
    apples = np.array([option.species == "apple" for option in here.options])
    assert not alone[~apples].any()
    assert alone[number(here, APPLE)] == 0
    assert alone[apples].any()
    assert is_served(here, alone)[number(here, PLUM)]  # Victoria is self-fertile


def test_partners_named_are_those_of_the_pollination_factor(made):
    names = partners_of_one(made, APPLE)
    # Source: RHS, apples of neighbouring pollination groups: Egremont Russet (group 2) with
    # James Grieve (group 3), from memory.
    assert "James Grieve" in names
    assert "Bramley" not in names  # a triploid serves none
    assert APPLE.cultivar not in names


def test_judging_many_gives_the_same_scores_as_judging_the_short_list(made):
    told = []
    judged = judged_all(made, made.options, told.append)
    own = judged_best(made)
    np.testing.assert_allclose(judged.best, own.best)
    np.testing.assert_array_equal(judged.peg, own.peg)
    assert told == [len(made.options)]
    assert (own.peg_score <= own.best + 1e-12).all()
    assert set(own.peg) <= {made.ground.places.cells, made.ground.places.cells + 1}


def test_judging_many_leaves_the_study_as_it_was(made):
    before = made.snapshot()
    judged_all(made, made.options, lambda _done: None)
    assert made.snapshot()["options"] == before["options"]
    assert made.option == before["option"]
