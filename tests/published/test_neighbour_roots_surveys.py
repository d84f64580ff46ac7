"""Reach of the catalogue's neighbouring trees against roots found in surveys.

Greatest distances [m] at which a tree's roots were found, and mature heights [m], typed from:
- SUBB: Subsidence Claims Advisory Bureau, minimum distance and maximum root spread recorded;
- CRANE: Homeowners beware of the tree, which quotes the Bureau (Kew root survey);
- UKTC: UK Tree Care list 2020-01-15, which quotes Kew and Mercer;
- C&R: Cutler and Richardson (1989), Tree Roots and Buildings, from memory;
- heights: NHBC Standards 2006, chapter 4.2, table 12.
Extremes of many trees, mostly on clay: feeding roots that trouble a young tree reach over a good
part of that distance and hardly beyond it.
"""

import numpy as np
import pytest
from scipy.stats import spearmanr

from model.trees import neighbour, read_catalogue

pytestmark = pytest.mark.published

CATALOGUE = read_catalogue()

SURVEYED = {
    "willow": (40.0, 24, "CRANE"),
    "oak": (30.0, 20, "UKTC"),
    "poplar": (30.0, 28, "UKTC"),
    "elm": (25.0, 24, "C&R"),
    "horse_chestnut": (23.0, 20, "C&R"),
    "ash": (21.0, 23, "C&R"),
    "lime": (20.0, 22, "C&R"),
    "sycamore": (20.0, 22, "C&R"),
    "leyland_cypress": (20.0, 20, "SUBB"),
    "beech": (15.0, 20, "C&R"),
    "robinia": (12.4, 18, "C&R"),
    "hawthorn": (11.5, 10, "SUBB"),
    "cherry": (11.0, 12, "SUBB"),
    "plum": (11.0, 10, "SUBB"),
    "rowan": (11.0, 11, "C&R"),
    "birch": (10.0, 14, "SUBB"),
    "apple": (10.0, 10, "SUBB"),
    "pear": (10.0, 12, "SUBB"),
}


def reach(name):
    tree = neighbour(CATALOGUE, name)
    return tree.mature_height * tree.root_reach_per_height


@pytest.mark.parametrize("name", SURVEYED)
def test_a_full_grown_tree_reaches_a_good_part_of_the_farthest_root_found(name):
    farthest, _, _ = SURVEYED[name]

    assert 0.6 * farthest <= reach(name) <= 1.3 * farthest


@pytest.mark.parametrize("name", SURVEYED)
def test_full_heights_are_those_of_the_building_standard(name):
    assert neighbour(CATALOGUE, name).mature_height == SURVEYED[name][1]


def test_trees_stand_in_the_order_of_the_surveys():
    farthest = [distance for distance, _, _ in SURVEYED.values()]

    assert spearmanr(farthest, [reach(name) for name in SURVEYED]).statistic > 0.85


def test_willow_poplar_and_ash_reach_at_least_as_far_as_they_are_tall():
    # Hellis Tree Consultants, Tree root systems: roots spread at least as far as the tree is tall
    # where nothing bars them; laterals of ash keep to the upper 10 cm.
    for name in ("willow", "poplar", "ash"):
        assert neighbour(CATALOGUE, name).root_reach_per_height >= 1


def test_the_catalogue_quotes_the_surveys_as_typed_here():
    quoted = [neighbour(CATALOGUE, name).root_distance_recorded for name in SURVEYED]
    typed = np.array([distance for distance, _, _ in SURVEYED.values()])
    known = np.isfinite(quoted)

    assert np.array_equal(np.array(quoted)[known], typed[known])
    assert known.sum() >= 15
