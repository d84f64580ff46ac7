"""What a grower would say at once of sun, frost, wind, water, soil, services, animals and fungi.

Each on a small made-up site. Source of every statement here: common practice, no source.
"""

from dataclasses import replace

import numpy as np
import pytest

from model.land.sun_patches import summer_months
from model.survey.heights import Plane, SpotHeights
from model.survey.site import Soil
from model.survey.soil import TEXTURES
from model.survey.wind import Wind
from model.trees import Option
from tests.model.small_site import (
    APPLE,
    CATALOGUE,
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
SOUTH_WEST = Wind(4.0, (0.0, 0.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0))


def wood(south: float, north: float, species: str = "beech", height: float = 14.0):
    return feature(
        "woodland", box(-40, south, 100, north), "the wood", species=species, height_m=height
    )


def summer_sun(drawn, **given) -> float:
    """Good sun a day at the middle of the field [h]."""
    ground = study(drawn, options=(APPLE,), **given).ground
    sun = ground.sun.a_day(ground.sun.strong, summer_months(ground.latitude))
    return float(sun[ground.places.nearest(31, 31)])


def test_a_wood_on_the_pole_side_costs_hardly_any_summer_sun_and_on_the_suns_side_most_of_it():
    field, north, south = (summer_sun(drawn) for drawn in ([], [wood(35, 60)], [wood(2, 27)]))
    assert north > 0.9 * field
    assert south < 0.5 * field


def test_south_of_the_equator_it_is_the_wood_to_the_north_that_costs_the_sun():
    north, south = (summer_sun(drawn, latitude=-36.0) for drawn in ([wood(35, 60)], [wood(2, 27)]))
    assert north < 0.7 * south


def test_a_low_western_horizon_gives_evening_sun_that_a_wall_there_takes_away():
    wall = feature("wall", LineString([(25, 0), (25, 60)]), "the wall", height_m=4.0)
    without, behind = (
        study(drawn, options=(APPLE,), spots=(spot("peg", 28, 30),)) for drawn in ([], [wall])
    )
    lost = without.ground.sun.hours[9, -1] - behind.ground.sun.hours[9, -1]
    lost_mornings = without.ground.sun.morning[9, -1] - behind.ground.sun.morning[9, -1]
    assert lost > 1.5
    assert lost_mornings == pytest.approx(0, abs=0.1)


def test_a_plum_or_gage_wants_more_sun_than_an_apple_or_a_pear():
    made = study([wood(0, 27)], options=(APPLE, PEAR, PLUM, GAGE))
    apple, pear, plum, gage = made.measure("sunlight")[:, made.ground.places.nearest(31, 31)]
    assert min(apple, pear) > max(plum, gage)


def hollow_and_slope(drawn=(), **given):
    """Ground that falls from the south into a hollow in the middle and rises again behind it."""
    x, y = (part.ravel() for part in np.meshgrid(np.arange(-10, 75, 5.0), np.arange(-10, 75, 5.0)))
    z = 56 - 0.1 * y - 2.5 * np.exp(-((x - 30) ** 2 + (y - 40) ** 2) / 120)
    return study(drawn, heights=SpotHeights(x, y, z), options=(PLUM, APPLE), **given)


def test_a_hollow_frosts_when_the_slope_above_it_does_not():
    made = hollow_and_slope()
    assert measure(made, "late_frost", 0, 31, 41) > measure(made, "late_frost", 0, 31, 5)


def test_a_hedge_across_the_slope_dams_the_cold_air():
    slope = {"heights": Plane(8.0, 0.0, 55.0), "options": (PLUM,)}
    hedge = feature(
        "hedge", LineString([(0, 40), (60, 40)]), "the hedge", species="hawthorn", height_m=3.0
    )
    chance = [measure(study(drawn, **slope), "late_frost", 0, 31, 37) for drawn in ([], [hedge])]
    assert chance[1] > chance[0]


def test_an_early_flowerer_is_caught_where_a_late_one_escapes():
    plum, apple = (measure(hollow_and_slope(), "late_frost", n, 31, 41) for n in (0, 1))
    assert plum > apple


def test_shelter_belongs_to_the_lee_of_a_belt():
    belt = feature("woodland", box(5, 5, 10, 55), "the belt", species="alder", height_m=10.0)
    open_field, sheltered = (
        study(drawn, wind=SOUTH_WEST, options=(APPLE,)) for drawn in ([], [belt])
    )
    felt = measure(sheltered, "wind_exposure", 0, 25, 45)
    assert felt < 0.6 * measure(open_field, "wind_exposure", 0, 25, 45)


def test_pears_bear_wetter_ground_than_plums():
    made = study([feature("wet_ground", box(0, 0, 60, 60), wet_months=4.0)], options=(PEAR, PLUM))
    pear, plum = made.measure("drainage")[:, made.ground.places.nearest(31, 31)]
    assert pear < plum


def test_loam_above_and_clay_below_differ_in_how_wet_they_lie():
    clay = feature("soil_patch", box(0, 0, 60, 25), texture="clay", depth_cm=60.0, ph=6.0)
    made = study([clay], heights=Plane(8.0, 180.0, 55.0), weather=monthly_weather(rain=95.0))
    below, above = (made.ground.wet_months[made.ground.places.nearest(31, y)] for y in (11, 45))
    assert below > above + 1


def test_a_place_two_units_too_acid_needs_lime_or_another_fruit():
    made = study(soil=Soil(ph=4.2), options=(APPLE,))
    place = made.ground.places.nearest(31, 31)
    number = [factor.name for factor in made.factors].index("soil_acidity")
    assert made.desirabilities[number, 0, place] < 0.2
    assert "limestone" in made.explain(number, 0, place)


def test_different_fruit_want_different_acidity():
    made = study(soil=Soil(ph=7.6), options=(APPLE, PLUM))
    apple, plum = made.measure("soil_acidity")[:, made.ground.places.nearest(31, 31)]
    assert apple != plum


def test_thin_soil_is_no_place_for_a_deep_rooter():
    thin, deep = (
        measure(study(soil=Soil(depth_cm=depth), options=(APPLE,)), "soil_depth", 0, 31, 31)
        for depth in (30.0, 120.0)
    )
    assert thin < 0 < deep


def test_a_tap_near_by_is_worth_a_good_deal_in_the_first_summers():
    tap = feature("tap", Point(5, 5), "the tap")
    made = study([tap, feature("boundary", box(0, 0, 160, 60))], cell=4.0, hub=(5.0, 8.0))
    near, far = (measure(made, "watering", 0, x, 10) for x in (10, 150))
    assert far > 2 * near


def test_a_dry_year_wants_more_water_than_a_median_one_and_sand_more_than_loam():
    tap = feature("tap", Point(5, 5), "the tap")
    lacking = {
        soil: study([tap], soil=Soil(soil)).ground.watering.lacking[:, :, 0]
        for soil in ("sand", "silt loam")
    }
    for soil in lacking.values():
        assert (soil[:, 1] >= soil[:, 0]).all()
    assert (lacking["sand"] > lacking["silt loam"]).all()


def test_no_tree_on_a_pipe():
    pipe = feature(
        "buried_service", LineString([(0, 20), (60, 20)]), "the pipe", service="water",
        clearance_m=3.0,
    )  # fmt: skip
    made = study([pipe], options=(DWARF, STANDARD), spots=(spot("on it", 30, 20.5),))
    here = made.here(made.ground.places.cells)
    assert here.ruled_out.all()
    assert "the pipe" in here.reason[0]


def test_under_a_cable_a_dwarf_may_stand_where_a_standard_may_not():
    line = feature(
        "overhead_line", LineString([(0, 20), (60, 20)]), "the line", service="electricity",
        height_m=6.5,
    )  # fmt: skip
    made = study([line], options=(DWARF, STANDARD), spots=(spot("under it", 15, 20),))
    assert made.here(made.ground.places.cells).ruled_out.tolist() == [False, True]


def test_whoever_judges_services_is_told_to_locate_before_digging():
    pipe = feature("buried_service", LineString([(0, 5), (60, 5)]), service="gas", clearance_m=3.0)
    made = study([pipe])
    number = [factor.name for factor in made.factors].index("services")
    sentence = made.explain(number, 0, made.ground.places.nearest(31, 31))
    assert "Locate services before you dig" in sentence
    assert "operator" in study().ground.absent["services"]


def test_a_tree_on_a_deer_run_needs_a_guard_or_another_place():
    run = feature("animal_run", LineString([(0, 20), (60, 20)]), "the run", animal="roe deer")
    made = study([run], options=(APPLE,))
    on, off = (measure(made, "browsing", 0, 31, y) for y in (21, 55))
    assert on > off == 0
    number = [factor.name for factor in made.factors].index("browsing")
    assert "guard against roe deer" in made.explain(number, 0, made.ground.places.nearest(31, 21))


def test_past_some_steepness_a_tall_tree_is_ruled_out_and_a_dwarf_is_not():
    made = study(heights=Plane(35.0, 180.0, 55.0), options=(DWARF, STANDARD))
    here = made.here(made.ground.places.nearest(31, 45))
    assert not here.ruled_out[0]
    assert "ladder" in here.reason[1]


def test_old_grass_by_an_ash_wood_is_likelier_to_share_fungi_than_ground_beside_pines():
    grass = feature("grassland", box(0, 0, 60, 60), age_years=30.0)
    ash = study([grass, wood(40, 60, "ash")], options=(APPLE,))
    pine = study([wood(40, 60, "pine")], options=(APPLE,))
    linked, unlinked = (measure(made, "fungal_network", 0, 31, 35) for made in (ash, pine))
    assert linked > 0.9
    assert unlinked == pytest.approx(0, abs=0.05)


def test_the_fungal_network_is_disputed_and_weighs_next_to_nothing_to_begin_with():
    made = study()
    number = [factor.name for factor in made.factors].index("fungal_network")
    assert made.weights[number] < 0.02
    assert "disputed" in made.explain(number, 0, made.ground.places.nearest(31, 31))


def test_a_tall_tree_takes_more_sun_from_a_bed_to_its_north_than_a_dwarf_or_one_behind_it():
    bed = feature("sun_wanted", box(28, 28, 32, 32), "the bed", height_m=0.3)
    made = study([bed], options=(DWARF, STANDARD), hub=(50.0, 50.0))
    dwarf, standard = (measure(made, "own_shade", n, 31, 27) for n in (0, 1))
    behind = measure(made, "own_shade", 1, 31, 37)
    assert standard > dwarf > 0
    assert standard > behind


def test_a_lone_self_sterile_tree_has_no_pollen_until_a_partner_stands_near():
    cox = CATALOGUE.option("apple", "Cox", "MM106")
    partner = tree("apple", 20, 20, 4.0, 4.0, "the old apple")
    partner = replace(partner, attributes=partner.attributes | {"cultivar": "Discovery"})
    alone, served = (study(drawn, options=(cox,)) for drawn in ([], [partner]))
    assert measure(alone, "pollination", 0, 31, 21) < 0.6
    assert measure(served, "pollination", 0, 31, 21) > measure(alone, "pollination", 0, 31, 21)


def test_a_triploid_needs_two_partners():
    bramley = CATALOGUE.option("apple", "Bramley", "M25")
    partner = tree("apple", 20, 20, 4.0, 4.0, "the old apple")
    one = replace(partner, attributes=partner.attributes | {"cultivar": "Discovery"})
    made = study([one], options=(bramley,))
    assert measure(made, "pollination", 0, 31, 21) == pytest.approx(0.5, abs=0.05)


def test_sand_and_clay_from_a_laboratory_go_before_the_texture_found_by_hand():
    patch = feature(
        "soil_patch", box(0, 0, 60, 60), texture="loam", depth_cm=60.0, ph=6.5,
        sand_percent=20.0, clay_percent=55.0,
    )  # fmt: skip
    ground = study([patch]).ground
    assert TEXTURES[ground.soils.texture[ground.places.nearest(31, 31)]] == "clay"


def test_a_young_oak_takes_less_sun_now_than_when_it_is_grown():
    young = tree("oak", 31, 24, 5.0, 3.0)
    young = replace(
        young, attributes=young.attributes | {"full_height_m": 20.0, "full_crown_m": 14.0}
    )
    made = study([young], options=(APPLE,))
    grown = measure(made, "sunlight", 0, 31, 33)
    made.settings["sunlight"].neighbours = "present size"
    assert measure(made, "sunlight", 0, 31, 33) > grown + 0.5
