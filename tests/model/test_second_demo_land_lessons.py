"""What sun, frost, wind, water, soil, services and animals teach at the southern demo's pegs.

The lessons are common practice, no source; the demo's figures are invented.
"""

from functools import cache
from pathlib import Path

import numpy as np
import pytest

import demo_data
from model.land.sun_patches import winter_months
from model.opening import open_study
from model.study import Study
from tests.model.lessons import (
    by_peg,
    cell,
    factor,
    here,
    measure,
    option,
    place,
    sentence,
    without,
)

APPLE = "Golden Delicious on MM106"
CHERRY = "Sam on Gisela 6"
PLUM = "Marjorie's Seedling on Myrobalan B"
EARLY_APRICOT, LATE_APRICOT = "Canino on Apricot seedling", "Bergeron on St Julien A"
EARLY_PEACH, LATE_PEACH = "Peregrine on Peach seedling", "Redhaven on St Julien A"
PEAR, WALNUT = "Winter Nelis on Pear seedling", "Chandler on Walnut seedling"


@cache
def opened() -> Study:
    return open_study(Path(demo_data.__file__).parent / "sallowbend")


@pytest.fixture(scope="module")
def study() -> Study:
    return opened()


def sun_lost(study: Study, to: str, peg: str) -> float:
    """Direct sun in the growing season that features take from a peg [h a day]."""
    where = place(study, peg)
    return without(study, "sunlight", to, where, APPLE) - measure(study, "sunlight", peg, APPLE)


def winter_sun(study: Study, peg: str) -> float:
    """Direct sun in the dormant season [h a day], no day cloudy."""
    sun = study.ground.sun
    return float(sun.a_day(sun.hours, winter_months(study.site.latitude))[place(study, peg)])


def test_a_belt_to_the_north_costs_more_sun_than_taller_trees_to_the_south(study):
    willows, pines = sun_lost(study, "Willow belt", "Willows"), sun_lost(study, "Pine", "Pines")
    assert willows > 1.5 * pines > 0


def test_the_north_side_of_the_shed_is_the_sunny_one(study):
    assert winter_sun(study, "Shed north") > 5 * winter_sun(study, "Shed south")
    north, south = (
        measure(study, "sunlight", f"Shed {side}", APPLE) for side in ("north", "south")
    )
    assert north > south


@pytest.mark.parametrize("label", [EARLY_APRICOT, EARLY_PEACH, LATE_APRICOT, APPLE, PLUM])
def test_the_flat_frosts_when_the_bench_above_it_does_not(study, label):
    frost = by_peg(study, "late_frost", label)
    assert max(frost, key=frost.__getitem__) == "Flat"
    assert frost["Flat"] > 1.5 * frost["Bench"]
    assert frost["Bench"] <= frost["Far corner"] <= frost["Flat"]


@pytest.mark.parametrize(
    ("early", "late"), [(EARLY_APRICOT, LATE_APRICOT), (EARLY_PEACH, LATE_PEACH)]
)
def test_on_the_flat_the_early_flowerer_is_caught_where_the_late_one_escapes(study, early, late):
    caught, escaped = (measure(study, "late_frost", "Flat", label) for label in (early, late))
    assert caught > 2 * escaped


def test_the_willows_keep_the_hot_wind_off_the_flat(study):
    for peg in ("Willows", "Flat"):
        wind = measure(study, "wind_exposure", peg, APPLE)
        assert without(study, "wind_exposure", "Willow belt", place(study, peg), APPLE) > 1.2 * wind


def test_the_ridge_is_the_windiest_place(study):
    wind = by_peg(study, "wind_exposure", APPLE)
    assert max(wind, key=wind.__getitem__) == "Ridge"


def test_the_willows_roots_hold_nearly_half_and_reach_no_further_than_the_flat(study):
    roots = by_peg(study, "root_competition", APPLE)
    assert 40 < roots["Willows"] < 50
    assert roots["Flat"] == 0


def test_no_tree_stands_on_the_irrigation_main(study):
    judged = here(study, "Main")
    assert judged.ruled_out.all()
    assert all("Irrigation main" in reason for reason in judged.reason)


def test_on_the_thin_ridge_no_tree_finds_the_depth_it_needs(study):
    ridge, bench = here(study, "Ridge"), here(study, "Bench")
    depth = factor(study, "soil_depth")
    assert (ridge.measures[depth] < 0).all()
    assert ridge.score[ridge.order[0]] < 0.6 * bench.score[bench.order[0]]


def test_the_ridge_is_too_limy_for_most_fruits(study):
    away = here(study, "Ridge").measures[factor(study, "soil_acidity")]
    assert (away > 0.5).sum() > len(study.options) / 2
    assert "another fruit" in sentence(study, "soil_acidity", "Ridge", PLUM)
    assert "nothing to mend" in sentence(study, "soil_acidity", "Bench", APPLE)


def test_the_size_of_the_strong_plum_alone_suits_the_ridge_better_than_the_bench(study):
    vigour = factor(study, "vigour")
    ridge, bench = (here(study, peg).desirabilities[vigour] for peg in ("Ridge", "Bench"))
    assert ridge.argmax() == option(study, PLUM)
    assert ridge[option(study, PLUM)] > bench[option(study, PLUM)]
    better = [study.options[number].label for number in np.flatnonzero(ridge > bench)]
    assert set(better) == {PLUM, PEAR, WALNUT}  # the trees that are too large elsewhere


def test_the_deer_pass_the_far_corner_and_no_other_peg(study):
    exposed = by_peg(study, "browsing", APPLE)
    assert exposed.pop("Far corner") > 40
    assert not any(exposed.values())
    assert "guard against deer" in sentence(study, "browsing", "Far corner", APPLE)


def test_water_costs_most_at_the_far_corner_and_little_beside_the_dam(study):
    hours = by_peg(study, "watering", APPLE)
    assert max(hours, key=hours.__getitem__) == "Far corner"
    assert hours["Far corner"] > 2 * hours["Dam side"]
    assert "Dam" in sentence(study, "watering", "Dam side", APPLE)
    assert "by hose" in sentence(study, "watering", "Verandah", APPLE)


def test_the_old_bend_is_as_wet_as_it_was_seen_and_the_bench_is_dry(study):
    (bend,) = study.site.of_kind("wet_ground")
    middle = bend.geometry.representative_point()
    wet = study.ground.wet_months
    assert wet[cell(study, middle.x, middle.y)] >= bend.number("wet_months")
    assert wet[place(study, "Bench")] <= wet[place(study, "Flat")] < bend.number("wet_months")


def test_the_larger_the_tree_before_the_verandah_the_more_sun_the_bed_loses(study):
    taken = [measure(study, "own_shade", "Verandah", o) for o in (APPLE, EARLY_APRICOT, PEAR)]
    assert taken == sorted(taken)
    assert taken[0] < 0.1 < taken[1]
    assert "Vegetable bed" in sentence(study, "own_shade", "Verandah", PEAR)


def test_no_fruit_tree_that_fits_beside_the_shed_takes_much_of_the_panels_sun(study):
    judged = here(study, "Shed north")
    taken = judged.measures[factor(study, "own_shade"), list(judged.allowed)]
    assert len(taken) >= 14
    assert taken.max() < 0.3


def test_old_pasture_is_taken_to_share_its_fungi_and_the_flat_is_not(study):
    link = by_peg(study, "fungal_network", APPLE)
    assert link["Bench"] > 0.9
    assert link["Flat"] < 0.1


def test_the_seedling_apple_serves_apples_near_it_and_a_lone_cherry_finds_no_partner(study):
    pollen = by_peg(study, "pollination", APPLE)
    assert max(pollen, key=pollen.__getitem__) == "Screen"
    assert pollen["Screen"] > 5 * pollen["Far corner"]
    assert "Seedling apple" in sentence(study, "pollination", "Screen", APPLE)
    assert set(by_peg(study, "pollination", CHERRY).values()) == {0.0}
    assert set(by_peg(study, "pollination", EARLY_PEACH).values()) == {1.0}
