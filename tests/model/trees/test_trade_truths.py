"""What any experienced grower would say at once of sizes, needs and bloom.

Every statement here: common practice, no source.
"""

import numpy as np
import pytest

from model.land.roots import influence
from model.trees import full_size, neighbour, size_at_age, traits
from tests.model.trees.shipped import CATALOGUE


def of(*names):
    return traits(CATALOGUE, [CATALOGUE.option(*name) for name in names])


@pytest.mark.parametrize(
    ("species", "cultivar"),
    [("european_plum", "Victoria"), ("gage", "Cambridge Gage"), ("gage", "Oullins Gage")],
)
def test_a_plum_or_gage_on_a_semi_dwarfing_stock_grows_4_m_across_and_3_to_4_m_high(
    species, cultivar
):
    # Common practice, no source: "to about 4 m across and 3 to 4 m high on ordinary soil".
    size = full_size(of((species, cultivar, "St Julien A")), [0])

    assert 3.5 <= size.spread[1, 0, 0] <= 4.5
    assert 3.0 <= size.height[1, 0, 0] <= 4.0


@pytest.mark.parametrize(
    ("species", "cultivar", "stocks"),
    [
        ("european_plum", "Victoria", ("Pixy", "St Julien A", "Brompton")),
        ("gage", "Oullins Gage", ("Pixy", "St Julien A", "Myrobalan B")),
        ("damson", "Farleigh Damson", ("VVA-1", "Wavit", "Brompton")),
        ("apple", "Bramley", ("M27", "M9", "M26", "MM106", "MM111", "M25")),
        ("pear", "Conference", ("Quince C", "Quince A", "Pyrodwarf", "Pear seedling")),
        ("sweet_cherry", "Stella", ("Gisela 5", "Gisela 6", "Colt", "F12/1")),
    ],
)
def test_the_same_cultivar_is_smaller_on_a_dwarfing_stock_and_larger_on_a_vigorous_one(
    species, cultivar, stocks
):
    # Common practice, no source.
    chosen = of(*((species, cultivar, stock) for stock in stocks))

    assert (np.diff(chosen.height[1]) > 0).all()
    assert (np.diff(chosen.spread[1]) > 0).all()


def test_poor_soil_shrinks_and_rich_soil_swells_it():
    # Common practice, no source.
    poor, ordinary, rich = full_size(
        of(("european_plum", "Victoria", "St Julien A")), [-1, 0, 1]
    ).spread[1, 0]

    assert poor < 0.9 * ordinary
    assert rich > 1.1 * ordinary


def test_a_gage_wants_more_sun_and_a_drier_place_than_an_apple_or_a_pear():
    # Common practice, no source: an apple or a pear makes do with less.
    gage, plum, apple, pear = range(4)
    need = of(
        ("gage", "Cambridge Gage", "St Julien A"),
        ("european_plum", "Victoria", "St Julien A"),
        ("apple", "Bramley", "MM111"),
        ("pear", "Conference", "Quince A"),
    )

    for stone in (gage, plum):
        assert (need.sun_need[stone] > need.sun_need[[apple, pear]]).all()
        assert (need.rain_high[stone] < need.rain_high[[apple, pear]]).all()
        assert need.heat_need[stone] > need.heat_need[apple]


def test_pears_bear_wetter_ground_than_plums():
    # Common practice, no source.
    pear, plum = of(
        ("pear", "Conference", "Quince A"), ("european_plum", "Victoria", "St Julien A")
    ).waterlog

    assert pear > plum


def test_a_tree_planted_last_winter_is_hardly_bigger_this_winter():
    # Common practice, no source: a maiden whip of 1.5 m; after five years it is a tree.
    tree = of(("apple", "Discovery", "MM106"))
    age = size_at_age(tree.height[1], [1, 5], tree.growth_rate, tree.growth_power, planted=1.5)

    assert age[0] < 1.2 * 1.5
    assert age[1] > 1.5 * 1.5


def test_an_early_flowerer_is_in_bloom_before_a_late_one():
    # Common practice, no source: the order in which a mixed orchard flowers in a lowland spring.
    bloom = of(
        ("apricot", "Moorpark", "St Julien A"),
        ("peach", "Peregrine", "St Julien A"),
        ("european_plum", "Victoria", "St Julien A"),
        ("apple", "Discovery", "M9"),
        ("quince", "Vranja", "Quince A"),
        ("medlar", "Nottingham", "Quince A"),
    ).bloom_day

    assert (np.diff(bloom) > 0).all()


@pytest.mark.parametrize("shallow", ["willow", "poplar", "ash"])
@pytest.mark.parametrize("height", [12.0, 20.0, 25.0])
def test_an_oak_of_the_same_height_troubles_a_young_tree_less(shallow, height):
    # Common practice, no source: willow, poplar and ash feed shallow and far.
    distance = np.arange(0.25, 1.25, 0.05) * height

    def trouble(name):
        tree = neighbour(CATALOGUE, name)
        crown, far = height * tree.crown_to_height / 2, height * tree.root_reach_per_height
        return influence(distance, crown, far, tree.root_strength)

    oak, other = trouble("oak"), trouble(shallow)
    assert (other >= oak - 1e-12).all()
    assert (other > oak).any()
