"""What sun, frost, wind, water, soil, services and animals teach at the demo's pegs.

The lessons are common practice, no source; the demo's figures are invented.
"""

import pytest

from model.study import Study
from tests.model.demo import demo_study
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

M9, MM106, M25 = "Discovery on M9", "Egremont Russet on MM106", "Bramley on M25"
PLUM, PEAR, CHERRY = "Victoria on St Julien A", "Beth on Quince A", "Lapins on Colt"
WALNUT = "Broadview on Walnut seedling"
LATE_APPLE = "Ashmead's Kernel on MM111"
CLAY = ("Hollow", "Main", "Far bank")
LOAM = ("Kitchen view", "Screen", "Poplars", "Copse edge", "Middle field", "Top field")
HOSED = ("Shed nook", "Kitchen view")
ON_THE_RUN = ("Far bank", "Poplars", "Middle field")
OFF_THE_RUN = ("Shed nook", "Kitchen view", "Screen", "Top field", "Thin soil")


@pytest.fixture(scope="module")
def study() -> Study:
    return demo_study()


def sun_lost(study: Study, to: str, where: int) -> float:
    """Direct sun in the growing season that a feature takes from a place [h a day]."""
    now = study.measures["sunlight"][option(study, MM106), where]
    return without(study, "sunlight", to, where, MM106) - float(now)


@pytest.mark.parametrize("label", [PLUM, MM106, CHERRY])
def test_the_hollow_frosts_when_the_slope_above_it_does_not(study, label):
    frost = by_peg(study, "late_frost", label)
    assert max(frost, key=frost.__getitem__) == "Hollow"
    assert frost["Hollow"] > 1.5 * frost["Screen"]
    assert frost["Screen"] > frost["Thin soil"]


@pytest.mark.parametrize("peg", ["Hollow", "Far bank", "Middle field", "Top field"])
def test_an_early_flowerer_is_caught_where_a_late_one_escapes(study, peg):
    early, late = (measure(study, "late_frost", peg, label) for label in (PLUM, LATE_APPLE))
    assert early > 2 * late


def test_the_poplars_take_the_afternoon_sun_and_the_copse_hardly_any(study):
    poplars = sun_lost(study, "Poplar belt", place(study, "Poplars"))
    copse = sun_lost(study, "North copse", place(study, "Copse edge"))
    assert poplars > 1.5
    assert 0 <= copse < 0.5


def test_the_barn_takes_more_sun_north_of_it_than_south_of_it(study):
    north, south = cell(study, 89.5, 90.2), cell(study, 85.5, 75.8)  # 3 m from either long wall
    assert sun_lost(study, "Barn", north) > 1.5 * sun_lost(study, "Barn", south)


def test_the_hedge_with_ash_takes_morning_sun_at_the_lane_corner(study):
    assert sun_lost(study, "East hedge", place(study, "Lane corner")) > 0.3


def test_the_poplars_keep_the_west_wind_off(study):
    poplars = place(study, "Poplars")
    sheltered = measure(study, "wind_exposure", "Poplars", MM106)
    assert without(study, "wind_exposure", "Poplar belt", poplars, MM106) > 1.3 * sheltered


def test_the_far_bank_lies_in_the_open_wind(study):
    wind = by_peg(study, "wind_exposure", MM106)
    assert max(wind, key=wind.__getitem__) == "Far bank"


def test_no_tree_stands_on_the_main(study):
    judged = here(study, "Main")
    assert judged.ruled_out.all()
    assert all("Water main" in reason for reason in judged.reason)


def test_under_the_wire_only_the_smallest_dwarf_may_stand(study):
    judged = here(study, "Cable")
    assert [study.options[number].label for number in judged.allowed] == [M9]
    assert "House line" in judged.reason[option(study, M25)]
    assert "network operator" in sentence(study, "services", "Cable", M9)


@pytest.mark.parametrize("label", [M9, PLUM, PEAR, CHERRY])
def test_clay_lies_wet_for_longer_than_loam_and_the_hollow_longest(study, label):
    wet = by_peg(study, "drainage", label)
    assert min(wet[peg] for peg in CLAY) > 0.5 + max(wet[peg] for peg in LOAM)
    assert wet["Hollow"] == max(wet.values())


def test_on_wet_clay_a_pear_bears_what_a_cherry_does_not(study):
    months = [measure(study, "drainage", "Far bank", label) for label in (PEAR, PLUM, CHERRY)]
    assert months == sorted(months)
    assert months[0] < months[-1]


def test_the_rushy_ground_is_as_wet_as_it_was_seen_and_wetter_than_the_clay_around_it(study):
    (rushes,) = study.site.of_kind("wet_ground")
    middle = rushes.geometry.representative_point()
    wet = study.ground.wet_months
    assert wet[cell(study, middle.x, middle.y)] >= rushes.number("wet_months")
    assert wet[place(study, "Far bank")] < rushes.number("wet_months")


def test_on_thin_soil_no_tree_finds_the_depth_it_needs(study):
    depth = factor(study, "soil_depth")
    assert (here(study, "Thin soil").measures[depth] < 0).all()
    assert (here(study, "Middle field").measures[depth] > 0).sum() > len(study.options) / 2


def test_soil_acidity_differs_and_an_apple_on_the_thin_edge_wants_lime(study):
    away = by_peg(study, "soil_acidity", MM106)
    assert away["Middle field"] < away["Far bank"] < away["Thin soil"]
    assert "limestone" in sentence(study, "soil_acidity", "Thin soil", MM106)
    assert "nothing to mend" in sentence(study, "soil_acidity", "Middle field", MM106)


def test_water_costs_more_where_the_hose_ends(study):
    hours = by_peg(study, "watering", MM106)
    hosed = max(hours[peg] for peg in HOSED)
    assert all(hours[peg] > hosed for peg in hours if peg not in HOSED)
    assert hours["Far bank"] > 1.5 * hosed
    assert "by hose" in sentence(study, "watering", "Kitchen view", MM106)
    assert "in cans" in sentence(study, "watering", "Far bank", MM106)


@pytest.mark.parametrize("peg", ON_THE_RUN)
def test_where_the_deer_walk_a_tree_calls_for_a_guard(study, peg):
    assert measure(study, "browsing", peg, MM106) > 50
    assert "guard against deer" in sentence(study, "browsing", peg, MM106)


@pytest.mark.parametrize("peg", OFF_THE_RUN)
def test_in_the_garden_and_in_the_east_no_deer_come(study, peg):
    assert measure(study, "browsing", peg, MM106) == 0


def test_only_the_deer_make_the_middle_field_a_worse_place_than_the_top_field(study):
    middle, top = (here(study, peg) for peg in ("Middle field", "Top field"))
    worth = [judged.desirabilities[:, option(study, MM106)] for judged in (middle, top)]
    lost = study.weights * (worth[1] - worth[0])
    assert study.factors[int(lost.argmax())].name == "browsing"
    assert middle.score[option(study, MM106)] < top.score[option(study, MM106)]


def test_the_larger_the_tree_below_the_window_the_more_sun_the_bed_loses(study):
    taken = [measure(study, "own_shade", "Kitchen view", label) for label in (M9, MM106, M25)]
    assert taken == sorted(taken)
    assert taken[0] < 0.1
    assert taken[1] > 0.3
    assert "Vegetable bed" in sentence(study, "own_shade", "Kitchen view", M25)


def test_the_panels_are_out_of_reach_of_all_but_a_large_tree_close_to_the_barn(study):
    taken = study.measures["own_shade"][:, cell(study, 86.0, 77.0)]
    assert taken[option(study, M25)] < 0.1
    assert taken[option(study, WALNUT)] > 1
    assert max(measure(study, "own_shade", "Lane corner", label) for label in (M25, WALNUT)) < 0.2


def test_old_grass_is_taken_to_share_its_fungi_and_the_copse_is_not(study):
    link = by_peg(study, "fungal_network", MM106)
    assert link["Middle field"] > 0.9
    assert link["Copse edge"] < 0.1
    assert "disputed" in sentence(study, "fungal_network", "Middle field", MM106)


def test_the_screen_stands_on_the_steepest_ground_and_no_peg_is_too_steep(study):
    slope = by_peg(study, "slope", MM106)
    assert max(slope, key=slope.__getitem__) == "Screen"
    steep = [study.ruling.reason(o, place(study, p)) for o in range(14) for p in slope]
    assert not any("too steep" in reason for reason in steep)


def test_only_the_nameless_old_apple_serves_apples_and_no_pear_stands_near(study):
    pollen = by_peg(study, "pollination", MM106)
    assert pollen["Top field"] > 2 * pollen["Far bank"]
    for peg in ("Screen", "Top field"):
        assert "Old apple in the top field" in sentence(study, "pollination", peg, MM106)
    assert "no partner stands near" in sentence(study, "pollination", "Top field", PEAR)
    assert pollen["Top field"] < 1  # it may flower at another time


def test_a_self_fertile_plum_needs_no_partner_and_a_triploid_two(study):
    assert set(by_peg(study, "pollination", PLUM).values()) == {1.0}
    assert "two partners" in sentence(study, "pollination", "Top field", M25)
