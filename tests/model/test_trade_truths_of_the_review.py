"""What a grower would say at once of a tree a year on, each on a small made-up site.

Source of every statement here: common practice, no source.
"""

from datetime import date

import pytest

from model.planting.year_after.evidence import evidence_at, place_of
from model.planting.year_after.expected import expected
from model.planting.year_after.keep_or_move import judged_tree
from model.planting.year_after.observations import Observation
from model.planting.year_after.standing import StandingTree
from model.trees import TYPICAL, full_size, size_at_age
from tests.model.small_site import LineString, feature, spot, study

ON = date(2027, 11, 1)
PEGS = (spot("A", 12, 12), spot("B", 48, 48))


@pytest.fixture(scope="module")
def field():
    return study(spots=PEGS)


PEAR_AND_PLUM = (1, 2)


def judged(made, option, planted, *seen):
    tree = StandingTree("A", place_of(made, "A"), option, planted)
    return judged_tree(made, tree, [tree], seen, ON)


def seen(what, value, off=1.0):
    return Observation("A", date(2027, 10, 10), what, value, off)


def in_shade(made):
    """Less than half the sun at peg A that the map says, watched for three summers."""
    hours = expected(made, "sun_hours", place_of(made, "A"), 0).mean
    days = (date(2025, 9, 30), date(2026, 9, 30), date(2027, 9, 30))
    return [Observation("A", day, "sun_hours", 0.4 * hours, 0.5) for day in days]


def test_a_tree_planted_last_winter_is_hardly_bigger_this_winter(field):
    full = full_size(field.traits, [0.0]).height[TYPICAL, :, 0]
    rate, power = field.traits.growth_rate, field.traits.growth_power
    planted, year_on, grown = (size_at_age(full, age, rate, power, 1.5) for age in (0, 1, 8))
    assert (year_on - planted < 0.25 * (grown - planted)).all()


def test_a_tree_planted_last_winter_can_be_moved_to_a_better_place(field):
    for option in PEAR_AND_PLUM:
        found = judged(field, option, date(2027, 2, 10), *in_shade(field))
        assert found.seasons == 1
        assert found.gain > 0.1
        assert found.compared.move > found.compared.stay
        assert found.chances.survival >= 0.9


def test_after_five_years_a_move_seldom_pays(field):
    for option in range(3):
        young = judged(field, option, date(2027, 2, 10), *in_shade(field))
        old = judged(field, option, date(2021, 2, 10), *in_shade(field))
        assert old.seasons > 5
        assert old.advice == "keep"
        assert old.compared.move < old.compared.stay
        assert young.compared.move > old.compared.move


def test_after_a_year_on_the_land_one_knows_its_sun_and_its_wet_better_than_any_map(field):
    place = place_of(field, "A")
    for one in evidence_at(
        field, place, 0, [seen("sun_hours", 7.0, 0.5), seen("wet_days", 40.0, 20.0)]
    ):
        assert one.sd < 0.8 * one.prior.sd
        assert abs(one.mean - one.seen) < abs(one.mean - one.prior.mean)


def test_places_that_differ_by_less_than_the_surveys_error_are_a_tie_and_a_tie_stays(field):
    found = judged(field, 0, date(2027, 2, 10))
    assert abs(found.gain) <= 0.01
    assert found.advice == "keep"


def test_a_tree_on_ground_that_rules_it_out_has_no_peg_beside_a_pipe_to_go_to():
    pipe = feature(
        "buried_service",
        LineString([(0, 48), (60, 48)]),
        "the main",
        service="water",
        clearance_m=2.0,
    )
    made = study((pipe,), spots=PEGS)
    tree = StandingTree("A", place_of(made, "A"), 0, date(2027, 2, 10))
    found = judged_tree(made, tree, [tree], (), ON)
    assert found.there is None
    assert found.advice == "keep"


def test_a_tree_is_never_sent_where_another_crown_will_be():
    made = study(spots=(*PEGS, spot("C", 49, 48)))
    trees = [
        StandingTree("A", place_of(made, "A"), 0, date(2027, 2, 10)),
        StandingTree("B", place_of(made, "B"), 1, date(2027, 2, 10)),
    ]
    assert judged_tree(made, trees[0], trees, (), ON).there is None
