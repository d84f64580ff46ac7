"""What a grower would say at once of a placed order, each on a small made-up site.

Source of every statement here: common practice, no source.
"""

from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest

from model.planting.candidates import candidate_places
from model.planting.order import Order, Wish
from model.planting.placing import alternatives, place_order, replaced
from model.planting.plan_words import plan_words
from model.survey.site import Soil
from model.trees import TYPICAL, full_size
from tests.model.planting.orders import (
    BRAMLEY,
    COX,
    DISCOVERY,
    SPARTAN,
    STELLA,
    VICTORIA,
    broken_rules,
    field,
    order,
    pegs_of,
    row_of_pegs,
    stand,
)
from tests.model.small_site import LineString, feature

STANDARD = replace(BRAMLEY, rootstock="M25")


def grown(made, option, place):
    return float(full_size(made.traits, made.ground.soils.fertility).spread[TYPICAL, option, place])


def test_a_tree_is_judged_at_its_full_size_and_two_whips_that_fit_side_by_side_do_not():
    """Two standards 5 m apart: room for the whips, none for the crowns."""
    made = field([STELLA, STANDARD, COX, DISCOVERY], [(20, 20), (25, 20)])
    assert place_order(made, order(made, 2), pegs_of(made)).unmet == ()
    standards = replace(order(made, 0, 2), wishes=(Wish("standard", 2, (1,)),))
    assert grown(made, 1, made.ground.places.cells) > 5
    assert any(
        "Leave out 1 of 2" in said for said in place_order(made, standards, pegs_of(made)).unmet
    )


def test_there_is_room_to_walk_all_the_way_round_every_grown_crown():
    made = field([STELLA, VICTORIA], row_of_pegs(3, 3, 3, 3, 3))
    asked = order(made, 2, 1)
    placed = place_order(made, asked, candidate_places(made, asked))
    for one, other in combinations(placed.trees, 2):
        crowns = (grown(made, one.option, one.place) + grown(made, other.option, other.place)) / 2
        assert np.hypot(one.x - other.x, one.y - other.y) >= crowns + asked.walk - 1e-6


def test_a_tree_on_rich_soil_is_given_more_room_than_on_poor():
    rich, poor = (
        field([VICTORIA], [(20, 20), (25, 20)], soil=Soil(fertility=fertility))
        for fertility in ("rich", "poor")
    )
    assert place_order(poor, order(poor, 2), pegs_of(poor)).unmet == ()
    assert place_order(rich, order(rich, 2), pegs_of(rich)).unmet


def test_no_tree_stands_on_a_pipe():
    pipe = feature(
        "buried_service", LineString([(0, 12), (60, 12)]), "the main", service="water",
        clearance_m=3.0,
    )  # fmt: skip
    made = field([STELLA], [*row_of_pegs(8, 8), (20, 40)], [pipe])
    asked = order(made, 1)
    for offered in (pegs_of(made), candidate_places(made, asked)):
        (tree,) = place_order(made, asked, offered).trees
        assert abs(tree.y - 12) >= 3


def test_when_the_spade_meets_a_pipe_that_tree_moves_and_its_neighbours_stay():
    made = field([COX, DISCOVERY, STELLA, VICTORIA], row_of_pegs(7, 7, 7, 7, 7))
    asked = order(made, 1, 1, 1, 1)
    placed = place_order(made, asked, pegs_of(made))
    for hit in placed.trees:
        found = replaced(made, asked, placed, [hit.place])
        moved = set(stand(placed).items()) - set(stand(found).items())
        assert moved == {(hit.name, hit.option)}
        assert broken_rules(made, asked, found) == []
        assert hit.name in found.notes[0]


def test_pegs_that_are_set_stay_even_if_moving_them_were_better():
    """The two apples need one another, so that a blocked Cox far from any free peg drags on it."""
    made = field([COX, DISCOVERY], [(8, 8), (15, 8), (45, 50), (52, 50)])
    asked = order(made, 1, 1)
    placed = place_order(made, asked, pegs_of(made))
    hit, other = placed.trees
    free = replaced(made, asked, placed, [hit.place])
    assert other.place not in free.places
    held = replaced(made, asked, placed, [hit.place], kept=[other.place])
    assert other.place in held.places
    assert any("within 18 m" in said for said in held.unmet)


def test_a_lone_tree_that_is_not_self_fertile_bears_nothing():
    made = field([COX, DISCOVERY], row_of_pegs(7))
    alone = place_order(made, order(made, 1), pegs_of(made))
    assert alone.unmet[0].startswith(f"Give up {COX.label}, or plant it without the partners")
    assert "order Discovery with it" in alone.unmet[0]
    assert place_order(made, order(made, 1, 1), pegs_of(made)).unmet == ()


def test_two_of_one_cultivar_are_no_partners():
    made = field([COX, DISCOVERY], row_of_pegs(7, 7))
    assert place_order(made, order(made, 2), pegs_of(made)).unmet


def test_a_self_fertile_tree_may_stand_alone():
    made = field([STELLA], row_of_pegs(7))
    placed = place_order(made, order(made, 1), pegs_of(made))
    assert placed.unmet == ()
    assert any(
        "self-fertile, needs no partner" in said
        for said in plan_words(made, order(made, 1), placed)
    )


def test_partners_stand_within_reach_of_one_another():
    made = field([COX, DISCOVERY, STELLA], [(6, 6), (30, 6), (54, 6), (54, 20)])
    asked = order(made, 1, 1, 1)
    placed = place_order(made, asked, pegs_of(made))
    cox, discovery, _ = placed.trees
    assert np.hypot(cox.x - discovery.x, cox.y - discovery.y) <= 18


@pytest.mark.parametrize(("partners", "met"), [((1, 0), False), ((1, 1), True)])
def test_a_triploid_needs_two_partners_and_gives_none(partners, met):
    made = field([BRAMLEY, COX, SPARTAN], row_of_pegs(7, 7))
    placed = place_order(made, order(made, 1, *partners), pegs_of(made))
    assert (placed.unmet == ()) == met
    if met:
        bramley, *others = placed.trees
        assert len(bramley.partners) == 2
        assert not any("Bramley" in name for tree in others for name in tree.partners)


def test_places_that_differ_by_less_than_the_surveys_error_are_a_tie_and_taste_may_choose():
    made = field([STELLA], [(14, 14), (46, 14), (14, 46), (46, 46)])
    asked = order(made, 1)
    placed = place_order(made, asked, pegs_of(made))
    others = alternatives(made, asked, placed)
    assert others
    for other in others:
        assert abs(other.total - placed.total) <= 0.01 + 1e-6
        assert "within the survey's error that is a tie, and taste may choose" in other.notes[-1]


def test_of_several_apples_that_would_do_the_order_is_placed_as_asked_whatever_its_lines():
    made = field([COX, DISCOVERY, SPARTAN], row_of_pegs(7, 7, 7))
    one = Order((Wish("apple", 2, (0, 1, 2)),))
    two = Order((Wish("an apple", 1, (0, 1, 2)), Wish("another", 1, (0, 1, 2))))
    totals = [place_order(made, asked, pegs_of(made)).total for asked in (one, two)]
    assert totals[0] == pytest.approx(totals[1], abs=1e-4)
