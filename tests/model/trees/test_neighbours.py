"""Neighbouring trees are found by the names surveyors write."""

import math

import pytest

from model.trees import neighbour
from tests.model.trees.shipped import CATALOGUE

NAMED = (
    *("poplar", "willow", "ash", "oak", "birch", "beech", "alder", "sycamore", "lime", "hazel"),
    *("hawthorn", "blackthorn", "holly", "pine", "spruce", "leyland_cypress", "walnut"),
    *("black_walnut", "elm", "elder", "field_maple", "rowan", "horse_chestnut", "apple", "pear"),
    *("plum", "cherry"),
)


@pytest.mark.parametrize("name", [*NAMED, *CATALOGUE.species(), *CATALOGUE.neighbours()])
def test_a_neighbour_has_all_that_judging_it_needs(name):
    tree = neighbour(CATALOGUE, name)

    for trait in ("mature_height", "crown_to_height", "root_reach_per_height", "root_strength"):
        assert math.isfinite(getattr(tree, trait))
    assert tree.mycorrhiza
    assert 0 < tree.transmission_leaf <= tree.transmission_bare < 1


def test_names_bear_capitals_and_spaces():
    assert neighbour(CATALOGUE, "Leyland Cypress").name == "leyland_cypress"


def test_another_name_finds_the_same_tree():
    assert neighbour(CATALOGUE, "crack willow").name == "willow"


def test_an_unknown_name_is_answered_with_the_names_there_are():
    with pytest.raises(ValueError, match=r"triffid.*ash.*alder"):
        neighbour(CATALOGUE, "triffid")


def test_no_name_means_two_trees():
    others = [
        word
        for key in CATALOGUE.neighbours()
        if (value := CATALOGUE.value("neighbours", key, "also_called"))
        for word in value.words
    ]

    assert len(set(others)) == len(others)
    assert not set(others) & set(CATALOGUE.neighbours())
