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
from model.study import Here, Study

SORRELHAY = Path(demo_data.__file__).parent / "sorrelhay"
M9, MM106, M25 = "Discovery on M9", "Egremont Russet on MM106", "Bramley on M25"
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


def place(study: Study, peg: str) -> int:
    """The number of a peg among the places."""
    return study.ground.places.cells + study.ground.places.spots.index(peg)


def here(study: Study, peg: str) -> Here:
    """The options judged at a peg."""
    return study.here(place(study, peg))


def option(study: Study, label: str) -> int:
    """The number of an option."""
    return [one.label for one in study.options].index(label)


def leader(study: Study, peg: str) -> str:
    """The option that leads at a peg."""
    return study.options[here(study, peg).order[0]].label


def measure(study: Study, factor: str, peg: str, label: str) -> float:
    """The measure of a factor for an option at a peg, in its unit."""
    number = [one.name for one in study.factors].index(factor)
    return float(here(study, peg).measures[number, option(study, label)])


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


def test_who_leads_in_the_shed_nook_hangs_on_climate(weighed):
    before = leader(weighed, "Shed nook")
    weighed.move_weight("climate_fit", 0.5)
    assert leader(weighed, "Shed nook") != before


def test_below_the_kitchen_window_a_larger_tree_is_a_worse_one(study):
    covered = [measure(study, "views", "Kitchen view", label) for label in (M9, MM106, M25)]
    assert covered == sorted(covered)
    assert covered[-1] > 3 * covered[0] > 0
    walks = study.ground.walk[study.ground.places.cells :]
    assert walks.argmin() == study.ground.places.spots.index("Kitchen view")


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


@pytest.mark.parametrize("peg", ["Middle field", "Top field"])
def test_the_good_places_rule_nothing_out_and_have_no_weak_point(study, peg):
    judged = here(study, peg)
    assert not judged.ruled_out.any()
    assert judged.desirabilities[:, judged.order[0]].min() > 0.7
    assert judged.tied.sum() >= 2


def test_on_one_hectare_access_hardly_separates_the_pegs(study):
    number = [one.name for one in study.factors].index("access")
    pegs = study.desirabilities[number, option(study, MM106), study.ground.places.cells :]
    assert np.ptp(pegs) < 0.1


def test_different_trees_lead_at_different_pegs(study):
    leaders = {leader(study, peg) for peg in study.ground.places.spots}
    assert len(leaders) >= 4


def test_the_walnut_leads_nowhere(study):
    walnut = option(study, WALNUT)
    for peg in study.ground.places.spots:
        judged = here(study, peg)
        assert judged.ruled_out[walnut] or walnut == judged.allowed[-1], peg
