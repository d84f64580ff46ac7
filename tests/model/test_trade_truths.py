"""What a grower would say at once, each on a small made-up site.

Source of every statement here: common practice, no source.
"""

from dataclasses import replace

import numpy as np
import pytest

from model.decision.desirability import desirability
from model.survey.heights import Plane
from model.survey.site import Soil
from model.trees import Option, full_size
from tests.model.small_site import (
    APPLE,
    GAGE,
    PEAR,
    PLUM,
    LineString,
    Point,
    box,
    feature,
    measure,
    monthly_weather,
    spot,
    study,
    tree,
)

DWARF = Option("apple", "Egremont Russet", "M9")
STANDARD = Option("apple", "Egremont Russet", "M25")


def test_in_a_wet_mild_climate_an_apple_or_pear_makes_do_where_a_plum_or_gage_does_not():
    wet = study(options=(APPLE, PEAR, PLUM, GAGE), weather=monthly_weather(rain=130.0))
    apple, pear, plum, gage = wet.measure("climate_fit")[:, wet.ground.places.inside].mean(axis=1)
    assert min(apple, pear) > max(plum, gage)


def test_a_plum_on_a_semi_dwarfing_stock_grows_to_about_four_metres_on_ordinary_soil():
    made = study(options=(PLUM, GAGE))
    heights = made.measure("vigour")[:, made.ground.places.inside]
    assert (heights >= 3).all()
    assert (heights <= 4.5).all()
    across = full_size(made.traits, [0.0]).spread[1]
    assert across.round() == pytest.approx(4)


def test_a_dwarfing_stock_is_smaller_and_a_vigorous_one_larger():
    made = study(options=(DWARF, APPLE, STANDARD))
    dwarf, middling, standard = made.measure("vigour")[:, made.ground.places.inside][:, 0]
    assert dwarf < middling < standard


def test_poor_soil_shrinks_a_tree_and_rich_soil_swells_it():
    size = {
        soil: study(options=(APPLE,), soil=Soil(fertility=soil)).measure("vigour")
        for soil in ("poor", "ordinary", "rich")
    }
    poor, ordinary, rich = (np.nanmax(size[soil]) for soil in ("poor", "ordinary", "rich"))
    assert poor < ordinary < rich


def test_a_place_that_fits_the_whip_and_not_the_grown_tree_does_not_fit():
    barn = feature("building", box(10, 10, 20, 20), "the barn", height_m=5.0)
    beside = spot("beside the barn", 22.5, 15.0)
    made = study([barn], options=(DWARF, STANDARD), spots=(beside,))
    here = made.here(made.ground.places.cells)
    assert not here.ruled_out[0]
    assert here.ruled_out[1]
    assert "the barn" in here.reason[1]


def test_there_must_be_room_to_walk_all_the_way_round_the_grown_crown():
    tight, wide = (
        study(
            [tree("apple", 20, 20, 4.0, 4.0)], options=(DWARF,), spots=(spot("peg", 20 + away, 20),)
        )
        for away in (3.6, 6.0)
    )
    for made, enough in ((tight, False), (wide, True)):
        curve = made.settings["spacing"].curve
        worth = desirability(measure(made, "spacing", 0, *_peg(made)), curve)
        assert (worth > 0.5) == enough


def _peg(made):
    """Where the first peg stands."""
    places = made.ground.places
    return float(places.x[places.cells]), float(places.y[places.cells])


def test_a_neighbour_is_given_room_at_its_own_full_size():
    young = replace(tree("oak", 20, 20, 5.0, 3.0))
    young = replace(
        young, attributes=young.attributes | {"full_height_m": 20.0, "full_crown_m": 14.0}
    )
    made = study([young], options=(DWARF,), spots=(spot("peg", 26, 20),))
    assert made.here(made.ground.places.cells).ruled_out[0]


def test_willow_poplar_and_ash_trouble_a_young_tree_more_than_an_oak_does():
    held = {}
    for kind in ("willow", "poplar", "ash", "oak"):
        made = study(
            [tree(kind, 10, 30, 16.0, 10.0)], options=(APPLE,), spots=(spot("peg", 22, 30),)
        )
        held[kind] = measure(made, "root_competition", 0, 22, 30)
    assert min(held["willow"], held["poplar"], held["ash"]) > held["oak"]


def test_on_half_a_hectare_distance_from_the_house_hardly_separates_the_places():
    small = study([feature("boundary", box(0, 0, 70, 70))], hub=(35.0, 35.0))
    large = study([feature("boundary", box(0, 0, 316, 316))], hub=(5.0, 5.0), cell=6.0)
    widths = []
    for made in (small, large):
        hours = made.measure("access")[0]
        widths.append(np.nanquantile(hours, 0.95) - np.nanquantile(hours, 0.05))
    assert widths[0] < 0.5
    assert widths[1] > 2


def test_a_slope_makes_the_walk_longer():
    level = study(heights=Plane(0.0, 180.0, 50.0))
    steep = study(heights=Plane(30.0, 180.0, 50.0))
    assert measure(steep, "access", 0, 31, 55) > measure(level, "access", 0, 31, 55)


def test_a_wall_without_a_gate_makes_the_walk_longer_and_a_gate_mends_it():
    wall = feature("wall", LineString([(0, 40), (50, 40)]), "the wall", height_m=1.5)
    gate = feature("gate", Point(30, 40), "the gate")
    walk = [measure(study(drawn), "access", 0, 31, 51) for drawn in ([], [wall], [wall, gate])]
    assert walk[1] > 1.3 * walk[0]
    assert walk[2] < 1.1 * walk[0]


def test_ground_that_no_way_leads_to_is_ruled_out_in_words():
    wall = feature("wall", LineString([(0, 40), (60, 40)]), "the wall", height_m=1.5)
    made = study([wall], spots=(spot("beyond", 30, 50),))
    assert "no way leads there" in made.here(made.ground.places.cells).reason[0]


def test_a_tree_in_a_valued_view_costs_and_one_that_hides_an_eyesore_gains():
    for wish, sign in (("keep", 1), ("screen", -1)):
        view = feature(
            "view", Point(30, 10), "the view", bearing_deg=0.0, width_deg=40.0, wish=wish
        )
        made = study([view], options=(APPLE,), spots=(spot("in", 30, 30), spot("out", 50, 8)))
        inside, outside = made.measure("views")[0, made.ground.places.cells :]
        assert sign * inside > 3
        assert outside == 0


def test_two_places_that_differ_by_less_than_the_surveys_error_are_a_tie():
    made = study(
        options=(APPLE, Option("apple", "Egremont Russet", "MM106")), spots=(spot("peg", 12, 12),)
    )
    made.place = made.ground.places.cells
    here = made.here()
    assert here.tied.all()
    assert (here.rank == 1).all()
    assert "tie" in made.verdict()


def test_one_winter_in_five_too_cold_for_a_tree_rules_it_out():
    peach = Option("peach", "Peregrine", "St Julien A")
    made = study(options=(APPLE, peach), weather=monthly_weather(warmth=-16.0))
    out = made.ruling.ruled_out[:, made.ground.places.inside].mean(axis=1)
    assert out[1] == 1
