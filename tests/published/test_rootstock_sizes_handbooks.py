"""Full-grown sizes against the ranges that societies, nurseries and breeders print.

The figures are typed here from the lists themselves, each read as an excerpt, and are not taken
from the catalogue. The lists differ by pruning, soil and latitude, so a stock's low and high must
lie within the span of all the lists, and its typical tree between the smallest and the largest
figure of any one of them.
"""

import numpy as np
import pytest

from model.trees import read_catalogue, traits

pytestmark = pytest.mark.published

CATALOGUE = read_catalogue()

# Heights of the trained or free tree [m], by list.
HEIGHTS = {
    ("apple", "M27"): {"RHS, Rootstocks for fruit": (1.2, 1.8)},
    ("apple", "M9"): {
        "RHS, Rootstocks for fruit": (1.8, 2.4),
        "South Sound Fruit Society": (3.0, 3.0),
    },
    ("apple", "M26"): {"RHS, Rootstocks for fruit": (2.4, 3.0)},
    ("apple", "MM106"): {
        "Gardening Express": (3.0, 5.0),
        "Gardeners' World 2017-09-20": (3.0, 4.0),
        "Gardenerstips": (3.0, 4.0),
    },
    ("apple", "MM111"): {
        "Gardenerstips": (4.0, 4.6),
        "North Carolina historic sites, Horne Creek": (4.6, 7.6),
    },
    ("apple", "M25"): {
        "Gardeners' World 2017-09-20 and The Mother Tree": (4.0, 6.0),
        "Adams apple trees, large standard": (8.0, 10.0),
    },
    ("pear", "Quince C"): {"Longacres": (2.0, 3.0)},
    ("pear", "Quince A"): {
        "Longacres": (3.0, 4.0),
        "Marshalls": (3.0, 4.5),
        "Heritage Fruit Tree Nursery, Ireland": (3.0, 3.7),
    },
    ("pear", "Pyrodwarf"): {"Adams apple trees": (4.0, 5.0)},
    ("pear", "Pear seedling"): {"Adams apple trees, Kirchensaller": (8.0, 10.0)},
    ("european_plum", "Pixy"): {
        "Longacres": (2.0, 3.0),
        "Chris the fruit expert": (2.4, 2.4),
        "Primrose": (3.0, 3.0),
    },
    ("european_plum", "St Julien A"): {
        "Longacres": (3.0, 3.0),
        "Walcot": (3.5, 5.5),
        "Marshalls": (4.5, 5.0),
        "Tom the Apple Man": (3.5, 3.5),
        "Primrose": (4.0, 4.0),
    },
    ("apricot", "Torinel"): {"Adams apple trees": (4.0, 5.0)},
    ("sweet_cherry", "Gisela 5"): {"Longacres": (2.0, 2.0), "Orange Pippin": (3.0, 3.0)},
    ("sweet_cherry", "Colt"): {
        "Liquisearch": (3.7, 4.6),
        "Longacres": (5.0, 5.0),
        "Marshalls": (6.0, 6.0),
        "Tom the Apple Man": (3.5, 3.5),
    },
    ("sweet_cherry", "F12/1"): {"Adams apple trees": (8.0, 10.0)},
}

# Planting distance between free trees [m]: closest and widest of any list read.
SPACINGS = {
    ("apple", "M27"): (1.2, 1.8, "RHS, Rootstocks for fruit"),
    ("apple", "M9"): (2.4, 3.6, "RHS, Rootstocks for fruit"),
    ("apple", "M26"): (2.4, 4.5, "RHS, Rootstocks for fruit"),
    ("apple", "MM106"): (3.0, 6.0, "Gardening Express; Tom the Apple Man"),
    ("apple", "M25"): (7.0, 10.0, "Tom the Apple Man; Adams apple trees"),
    ("pear", "Quince A"): (3.0, 4.5, "Gardening Express"),
    ("european_plum", "St Julien A"): (4.0, 6.0, "Tom the Apple Man"),
    ("european_plum", "Brompton"): (7.0, 10.0, "Tom the Apple Man"),
    ("sweet_cherry", "Gisela 5"): (3.0, 4.0, "Tom the Apple Man"),
    ("sweet_cherry", "Colt"): (4.0, 6.0, "Tom the Apple Man; Gardening Express"),
}

# A cultivar of ordinary vigour of each species, so that only the rootstock counts.
PLAIN = {
    "apple": "Discovery",
    "pear": "Conference",
    "european_plum": "Victoria",
    "apricot": "Moorpark",
    "sweet_cherry": "Stella",
}


def sizes(species, rootstock):
    found = traits(CATALOGUE, [CATALOGUE.option(species, PLAIN[species], rootstock)])
    return found.height[:, 0], found.spread[:, 0]


def names(key):
    return " ".join(key)


@pytest.mark.parametrize("stock", HEIGHTS, ids=names)
def test_the_typical_height_lies_within_the_printed_ranges(stock):
    (_, typical, _), _ = sizes(*stock)
    lists = np.array(list(HEIGHTS[stock].values()))

    assert lists.min() <= typical <= lists.max()


@pytest.mark.parametrize("stock", HEIGHTS, ids=names)
def test_low_and_high_reach_about_as_far_as_the_lists_disagree(stock):
    # No farther than a quarter beyond the lists' span, and overlapping each of the printed ranges,
    # but for one list of very differently grown trees (large standards, American summers).
    (low, _, high), _ = sizes(*stock)
    lists = np.array(list(HEIGHTS[stock].values()))

    assert 0.75 * lists.min() <= low
    assert high <= 1.25 * lists.max()
    assert sum(high < least or low > most for least, most in lists) <= (len(lists) > 1)


@pytest.mark.parametrize("stock", SPACINGS, ids=names)
def test_the_full_spread_fits_the_printed_planting_distance(stock):
    # Free trees are set at about their spread: neither touching at the widest distance, nor
    # leaving more than half of the closest empty.
    _, (_, typical, _) = sizes(*stock)
    closest, widest, _ = SPACINGS[stock]

    assert 0.5 * closest <= typical <= widest


@pytest.mark.parametrize(
    ("species", "stock", "height", "spread"),
    [
        # Primrose, Choosing the perfect plum tree rootstock: St Julien A 4 m by 4 m.
        ("european_plum", "St Julien A", 4.0, 4.0),
        # Primrose, the same: Pixy 3 m by 3.5 m.
        ("european_plum", "Pixy", 3.0, 3.5),
        # Gardenerstips: MM106 12 ft across, MM111 13 to 15 ft high and 15 ft across.
        ("apple", "MM106", 3.5, 3.66),
        ("apple", "MM111", 4.3, 4.57),
    ],
)
def test_height_and_spread_printed_together_lie_between_low_and_high(
    species, stock, height, spread
):
    heights, spreads = sizes(species, stock)

    assert heights[0] <= height <= heights[2]
    assert spreads[0] <= spread <= spreads[2]


@pytest.mark.parametrize(
    ("stock", "least", "most"),
    [
        # Percent of a standard tree: South Sound Fruit Society 25, a Turkish nursery 30 to 40.
        ("M9", 25, 40),
        # Percent of a standard tree: 65 to 75 and 50 to 60 in two Turkish nurseries' lists.
        ("MM106", 50, 75),
        # The same two lists: 80 to 85 and 75.
        ("MM111", 75, 85),
    ],
)
def test_apple_stocks_keep_their_share_of_a_standard_tree(stock, least, most):
    # The standard tree is M25's (common practice, no source).
    share = 100 * sizes("apple", stock)[0][1] / sizes("apple", "M25")[0][1]

    assert least <= share <= most


def test_gisela_5_is_about_six_tenths_of_colt():
    # Longacres: 60 percent of Colt.
    share = sizes("sweet_cherry", "Gisela 5")[0][1] / sizes("sweet_cherry", "Colt")[0][1]

    assert share == pytest.approx(0.6, abs=0.1)
