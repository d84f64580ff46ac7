"""Each peg of the demo teaches what its README says, judged by the model on the demo itself.

The lessons are common practice, no source; the demo's figures are invented.
"""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

import demo_data
from model.ground import Ground
from model.opening import folder_faults, open_study
from model.study import Study
from tests.model.lessons import counting, here, leader, measure, option, place

SORRELHAY = Path(demo_data.__file__).parent / "sorrelhay"
M9, MM106, M25 = "Discovery on M9", "Egremont Russet on MM106", "Bramley on M25"
PEAR, LATE = "Conference on Quince C", "Ashmead's Kernel on MM111"
DAMSON, WALNUT = "Farleigh Damson on Brompton", "Broadview on Walnut seedling"


@pytest.fixture(scope="module")
def study() -> Study:
    return open_study(SORRELHAY)


@pytest.fixture
def weighed(study: Study):
    """The study, its weights put back afterwards."""
    weights, trade_off = study.weights, study.trade_off
    yield study
    study.param.update(weights=weights, trade_off=trade_off)


def test_the_whole_folder_opens_without_a_fault():
    assert folder_faults(SORRELHAY) == []


def test_every_option_is_in_the_catalogue(study):
    listed = [(one.species, one.cultivar, one.rootstock) for one in study.options]
    assert tuple(listed) == study.site.options
    assert all(study.catalogue.option(*one) for one in listed)


def test_every_factor_is_judged_on_the_demo(study):
    assert study.unjudged == ()


def test_the_shed_nook_fits_a_whip_but_only_dwarfs_full_grown(study):
    judged = here(study, "Shed nook")
    left = {study.options[number].rootstock for number in judged.allowed}
    assert left <= {"M9", "Quince C", "Pixy", "Gisela 5"}
    assert len(judged.allowed) >= 3
    assert "no room" in judged.reason[option(study, M25)]


def test_who_leads_in_the_shed_nook_hangs_on_walking_room(weighed):
    before = leader(weighed, "Shed nook")
    weighed.move_weight("spacing", 0.3)
    assert leader(weighed, "Shed nook") != before


def test_below_the_kitchen_window_a_larger_tree_is_a_worse_one(study):
    covered = [measure(study, "views", "Kitchen view", label) for label in (M9, MM106, M25)]
    assert covered == sorted(covered)
    assert covered[-1] > 3 * covered[0] > 0
    walks = study.ground.walk[study.ground.places.cells :]
    assert walks.argmin() == study.ground.places.spots.index("Kitchen view")


def test_below_the_kitchen_window_only_people_speak_against_a_larger_tree(weighed):
    worth = here(weighed, "Kitchen view").desirabilities[:, option(weighed, M25)]
    weakest = {weighed.factors[number].name for number in worth.argsort()[:2]}
    assert weakest == {"views", "own_shade"}
    assert leader(weighed, "Kitchen view") == M9
    weighed.move_weight("family:people", 0.0)
    assert leader(weighed, "Kitchen view") != M9


def test_before_the_silage_shed_a_larger_crown_screens_more(study):
    screened = [-measure(study, "views", "Screen", label) for label in (M9, MM106, M25)]
    assert screened == sorted(screened)
    assert screened[-1] > screened[0] > 0


def test_the_same_distance_off_poplars_trouble_more_than_the_copse(study):
    poplars, copse = (
        measure(study, "root_competition", peg, MM106) for peg in ("Poplars", "Copse edge")
    )
    assert poplars > 60
    assert 5 < copse < poplars / 3


def test_the_hedge_with_ash_feeds_at_the_lane_corner(study):
    assert measure(study, "root_competition", "Lane corner", MM106) > 10


@pytest.mark.parametrize("label", [M9, MM106, M25, DAMSON])
def test_thin_soil_shrinks_and_rich_clay_swells_the_same_tree(study, label):
    poor, ordinary, rich = (
        measure(study, "vigour", peg, label) for peg in ("Thin soil", "Middle field", "Hollow")
    )
    assert poor < 0.9 * ordinary < ordinary < rich


def test_on_thin_soil_the_strong_stock_beats_the_dwarf(study):
    scores = here(study, "Thin soil").score
    assert scores[option(study, DAMSON)] > scores[option(study, M9)]


def test_the_far_bank_is_reached_by_the_bridge_only(study):
    assert np.isfinite(study.ground.walk[place(study, "Far bank")])
    kept = tuple(one for one in study.site.features if one.name != "Footbridge")
    without = Ground(replace(study.site, features=kept), study.catalogue)
    assert np.isnan(without.walk[place(study, "Far bank")])


def test_the_top_field_rules_nothing_out_and_has_no_weak_point(study):
    judged = here(study, "Top field")
    assert not judged.ruled_out.any()
    assert judged.desirabilities[counting(study), judged.order[0]].min() > 0.7
    assert judged.tied.sum() >= 2


def test_the_middle_field_has_no_weak_point_but_the_deer(study):
    judged = here(study, "Middle field")
    assert not judged.ruled_out.any()
    assert judged.rank[option(study, LATE)] <= 2
    worth = judged.desirabilities[:, option(study, LATE)]
    weak = {study.factors[number].name for number in (counting(study) & (worth < 0.7)).nonzero()[0]}
    assert weak - {"pollination"} == {"browsing"}  # pollen hangs on what else is planted
    assert np.ptp(judged.score[list(judged.order[:3])]) < 0.03  # hardly a lead


def test_on_one_hectare_access_hardly_separates_the_pegs(study):
    number = [one.name for one in study.factors].index("access")
    pegs = study.desirabilities[number, option(study, MM106), study.ground.places.cells :]
    assert np.ptp(pegs) < 0.1


def test_different_trees_lead_at_different_pegs(study):
    leaders = {leader(study, peg) for peg in study.ground.places.spots}
    assert len(leaders) >= 4


def test_the_weight_sets_agree_at_some_pegs_and_not_at_all(weighed):
    leaders = []
    for kept in weighed.weight_sets:
        weighed.use(kept)
        leaders.append([leader(weighed, peg) for peg in weighed.ground.places.spots])
    alike = {
        peg
        for peg, led in zip(weighed.ground.places.spots, zip(*leaders, strict=True), strict=True)
        if len(set(led)) == 1
    }
    assert {"Cable", "Kitchen view"} <= alike
    assert alike < set(weighed.ground.places.spots)


def test_the_lead_passes_from_apple_to_pear_where_loam_meets_clay(study):
    led = study.leaders.option[: study.ground.places.cells]
    depth = study.ground.soils.depth[: study.ground.places.cells]
    share = {
        (soil, fruit): np.mean(
            [study.options[o].species == fruit for o in led[(depth == cm) & (led >= 0)]]
        )
        for soil, cm in (("loam", 95), ("clay", 65))
        for fruit in ("apple", "pear")
    }
    assert share["loam", "apple"] > 0.6
    assert share["clay", "apple"] < 0.2
    assert share["clay", "pear"] > 0.6
    assert share["loam", "pear"] < 0.2


def test_the_walnut_leads_nowhere(study):
    walnut = option(study, WALNUT)
    for peg in study.ground.places.spots:
        judged = here(study, peg)
        assert judged.ruled_out[walnut] or walnut == judged.allowed[-1], peg
