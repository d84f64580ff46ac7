"""Traits come as arrays in the order of the options."""

import dataclasses

import numpy as np
import pytest

from model.trees import traits
from tests.model.trees.shipped import CATALOGUE

ALL = traits(CATALOGUE, CATALOGUE.options())

REQUIRED = (
    *("height", "spread", "poor_soil", "rich_soil", "growth_rate", "growth_power"),
    *("years_to_crop", "chill_need", "heat_need", "july_temperature", "cold_limit"),
    *("rain_low", "rain_high", "rain_best_low", "rain_best_high", "visits"),
    *("sun_need", "sun_good", "ph_low", "ph_high", "ph_borne_low", "ph_borne_high"),
    *("soil_depth_min", "soil_depth_good", "waterlog", "drought", "wind", "wet_disease"),
    *("browse", "pick_first", "pick_last"),
)


def chosen(*names):
    return traits(CATALOGUE, [CATALOGUE.option(*name) for name in names])


@pytest.mark.parametrize("trait", REQUIRED)
def test_what_judging_needs_is_known_for_every_option(trait):
    assert np.isfinite(getattr(ALL, trait)).all()


def test_every_trait_has_a_place_for_every_option():
    for field in dataclasses.fields(ALL):
        values = getattr(ALL, field.name)
        size = values.shape[-1] if isinstance(values, np.ndarray) else len(values)
        assert size == len(ALL.options), field.name


@pytest.mark.parametrize(
    ("low", "high"),
    [
        ("rain_low", "rain_high"),
        ("rain_low", "rain_best_low"),
        ("rain_best_high", "rain_high"),
        ("ph_low", "ph_high"),
        ("ph_borne_low", "ph_low"),
        ("ph_high", "ph_borne_high"),
        ("sun_need", "sun_good"),
        ("soil_depth_min", "soil_depth_good"),
        ("pick_first", "pick_last"),
    ],
)
def test_ranges_are_the_right_way_round(low, high):
    wrong = {o.species for o in np.array(ALL.options)[getattr(ALL, low) > getattr(ALL, high)]}

    assert not wrong


def test_low_typical_and_high_sizes_rise():
    for size in (ALL.height, ALL.spread):
        assert (size[0] < size[1]).all()
        assert (size[1] < size[2]).all()


def test_a_strong_grower_is_larger_than_the_rootstocks_usual_tree():
    size = chosen(("apple", "Bramley", "MM106"), ("apple", "Discovery", "MM106"))

    assert size.height[1] == pytest.approx([4.0 * 1.15, 4.0])
    assert size.spread[1] == pytest.approx([3.7 * 1.15, 3.7])


def test_visits_are_the_sum_of_a_years_work():
    # Pruning 1, thinning 2, picking 4, mowing 6, mulching 2, guard 2: common practice, no source.
    assert chosen(("apple", "Egremont Russet", "M26")).visits.tolist() == [17.0]


def test_a_rootstock_with_its_own_standing_in_wet_ground_goes_before_the_species():
    wet = chosen(("sweet_cherry", "Stella", "F12/1"), ("sweet_cherry", "Stella", "Colt")).waterlog

    assert wet[0] > wet[1]


def test_a_later_flowering_group_blooms_later():
    bloom = chosen(
        *(("apple", name, "M9") for name in ("Gravenstein", "Discovery", "Crawley Beauty"))
    )

    assert bloom.flower_group.tolist() == [1, 3, 6]
    assert (np.diff(bloom.bloom_day) > 0).all()


def test_a_cultivar_without_a_group_blooms_on_its_species_day():
    bloom = chosen(("sweet_cherry", "Bing", "Colt"))

    assert np.isnan(bloom.flower_group[0])
    assert bloom.bloom_day[0] == 110


def test_triploids_and_partners_are_told():
    found = chosen(("apple", "Bramley", "M9"), ("pear", "Onward", "Quince A"))

    assert found.triploid.tolist() == [True, False]
    assert found.incompatible_with == ((), ("Doyenné du Comice",))


def test_no_options_give_empty_arrays():
    assert traits(CATALOGUE, []).height.shape == (3, 0)
