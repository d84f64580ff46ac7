"""A whole order placed: rules kept, nothing better left, the rest said. Source: the definitions."""

from dataclasses import replace
from itertools import permutations

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from model.planting.candidates import Candidate, placing_scores
from model.planting.order import Order, Wish
from model.planting.placing import alternatives, place_order, replaced
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
from tests.model.small_site import box, feature, tree

PEGS = [*row_of_pegs(6, 6, 6, 6, 6), *row_of_pegs(7, 7, 7, y=22)]
PATIENT = settings(
    max_examples=12, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)


@pytest.fixture(scope="module")
def made():
    barn = feature("building", box(0, 0, 60, 3), "the barn", height_m=5.0)
    return field([COX, DISCOVERY, STELLA, VICTORIA, BRAMLEY, SPARTAN], PEGS, [barn])


@pytest.fixture(scope="module")
def asked(made):
    return order(made, 1, 1, 1, 1)


@pytest.fixture(scope="module")
def placed(made, asked):
    return place_order(made, asked, pegs_of(made))


def test_a_placement_keeps_every_rule_and_meets_every_wish(made, asked, placed):
    assert broken_rules(made, asked, placed) == []
    assert placed.proven
    assert placed.gap == 0
    assert placed.unmet == ()
    assert placed.total == pytest.approx(sum(tree.score for tree in placed.trees))


def test_no_other_way_to_stand_at_the_pegs_scores_more(made, asked, placed):
    """Every way of giving four trees four of the pegs, judged one by one."""
    scores = placing_scores(made, np.arange(made.ground.places.x.size))
    pegs, trees = pegs_of(made), range(4)
    best = 0.0
    for chosen in permutations([peg.place for peg in pegs], 4):
        total = float(
            sum(scores[option, place] for option, place in zip(trees, chosen, strict=True))
        )
        if total > best + 1e-9:
            stood = [
                replace(planted, place=place, x=made.ground.places.x[place],
                        y=made.ground.places.y[place])
                for planted, place in zip(placed.trees, chosen, strict=True)
            ]  # fmt: skip
            if not broken_rules(made, asked, replace(placed, trees=tuple(stood))):
                best = total
    assert placed.total == pytest.approx(best, abs=1e-4)


def test_the_same_order_is_placed_the_same_way_every_time(made, asked, placed):
    again = place_order(made, asked, pegs_of(made))
    assert again.trees == placed.trees


def test_the_choices_that_it_was_made_with_are_kept(made, placed):
    assert placed.choices["trade_off"] == made.trade_off
    assert (placed.choices["weights"] == made.weights).all()


def test_a_tree_says_who_serves_it_and_how_far_away(made, placed):
    cox = placed.trees[0]
    (partner,) = cox.partners
    assert partner.startswith("Discovery at P")
    assert partner.endswith(" m")


def test_a_set_tree_stays_where_it_is_and_counts(made, asked, placed):
    worse = next(peg for peg in pegs_of(made) if peg.place not in placed.places)
    kept = place_order(made, asked, pegs_of(made), kept=[(worse.place, 2)])
    assert stand(kept)[worse.name] == 2
    assert broken_rules(made, asked, kept) == []
    assert kept.total <= placed.total + 1e-4


def test_no_tree_can_be_kept_on_a_blocked_place(made, asked, placed):
    first = placed.trees[0]
    with pytest.raises(ValueError, match="cannot be kept on a blocked place"):
        place_order(
            made, asked, pegs_of(made), blocked=[first.place], kept=[(first.place, first.option)]
        )


@PATIENT
@given(st.sets(st.integers(0, len(PEGS) - 1), max_size=3))
def test_blocking_places_never_makes_a_placement_better(made, asked, placed, blocked):
    cells = made.ground.places.cells
    less = place_order(made, asked, pegs_of(made), blocked=[cells + number for number in blocked])
    if not less.unmet:
        assert less.total <= placed.total + 1e-4
        assert broken_rules(made, asked, less) == []
    assert not {cells + number for number in blocked} & set(less.places)


@PATIENT
@given(st.integers(0, 29), st.integers(0, 29))
def test_one_more_candidate_never_makes_a_placement_worse(made, asked, placed, column, row):
    place = made.ground.places.nearest(2.0 * column + 1, 2.0 * row + 1, 0.0)
    more = place_order(made, asked, [*pegs_of(made), Candidate(place, "one more")])
    assert more.total >= placed.total - 1e-4


def test_a_budget_is_kept_and_what_is_over_it_is_said(made):
    apple = Wish("apple", 2, (0, 1, 5))
    prices = (30.0, 20.0, 25.0, 25.0, 40.0, 22.0)
    rich = Order((apple,), budget=100.0, prices=prices)
    cheap = replace(rich, budget=43.0)
    spent = [sum(o.prices[t.option] for t in place_order(made, o, pegs_of(made)).trees)
             for o in (rich, cheap)]  # fmt: skip
    assert spent[1] <= 43
    poor = place_order(made, replace(rich, budget=30.0), pegs_of(made))
    assert poor.unmet == (
        "Raise the budget for trees by 12.00 to 42.00, or order cheaper or fewer trees.",
    )
    assert len(poor.trees) == 2


def test_a_budget_never_counts_a_tree_without_a_price(made):
    wish = Wish("apple", 2, (0, 1, 5))
    prices = (float("nan"), 20.0, 25.0, 25.0, 40.0, 22.0)
    found = place_order(made, Order((wish,), budget=100.0, prices=prices), pegs_of(made))
    assert 0 not in {tree.option for tree in found.trees}
    assert any("Left out" in note and COX.label in note for note in found.notes)


def test_too_many_trees_for_the_room_are_left_out_and_said(made):
    crowded = place_order(made, order(made, 0, 0, 12), pegs_of(made))
    (sentence,) = crowded.unmet
    assert sentence.startswith("Leave out ")
    assert f"of 12 of “{STELLA.label}”" in sentence
    assert 0 < len(crowded.trees) < 12
    assert not [rule for rule in broken_rules(made, order(made), crowded) if "apart" in rule]


def test_what_may_stand_nowhere_says_why(made):
    pipe = feature(
        "buried_service", box(0, 0, 60, 60).exterior, "the main", service="water", clearance_m=2.0
    )
    barred = field([STELLA], [(1, 30)], [pipe])
    (sentence,) = place_order(barred, order(barred, 1), pegs_of(barred)).unmet
    assert "it may stand at none of the places offered (" in sentence
    assert barred.ruling.reason(0, barred.ground.places.cells) in sentence


def test_a_far_partner_asks_for_a_wider_range_or_a_wish_less():
    far = field([COX, DISCOVERY], [(6, 6), (28, 6)])
    found = place_order(far, order(far, 1, 1), pegs_of(far))
    assert len(found.unmet) == 2
    assert all("or widen the bee range to 25 m" in sentence for sentence in found.unmet)
    assert "lies within 18 m of enough of those that serve it" in found.unmet[0]
    wider = place_order(far, order(far, 1, 1, bee_range=25.0), pegs_of(far))
    assert wider.unmet == ()


def test_a_tree_planted_without_its_partners_scores_as_it_does_alone():
    alone = field([COX], [(20, 20)])
    (tree_,) = place_order(alone, order(alone, 1), pegs_of(alone)).trees
    assert tree_.score == pytest.approx(alone.shown_scores(0)[tree_.place])
    assert tree_.partners == ()


def test_a_tree_that_stands_already_serves_and_is_named():
    old = tree("apple", 14, 12, 4, 3, "Old apple")
    old = replace(old, attributes={**old.attributes, "cultivar": "Discovery"})
    served = field([COX], [(8, 6), (50, 50)], [old])
    found = place_order(served, order(served, 1), pegs_of(served))
    assert stand(found) == {"P0": 0}
    assert found.trees[0].partners == ("Old apple, 8 m",)


def test_an_unknown_tree_that_stands_counts_half_and_says_so():
    old = [tree("apple", 14, 12, 4, 3, "Old apple"), tree("apple", 4, 16, 4, 3, "Crab by the gate")]
    half, whole = field([COX], [(8, 6)], old[:1]), field([COX], [(8, 6)], old)
    alone = place_order(half, order(half, 1), pegs_of(half))
    assert alone.unmet
    assert any(
        note.startswith("Counted as half a partner, since the cultivar is not known: Old apple")
        for note in alone.notes
    )
    assert place_order(whole, order(whole, 1), pegs_of(whole)).unmet == ()


def test_a_cultivar_that_stands_is_not_counted_twice_when_it_is_ordered_too():
    """A triploid wants two other cultivars: Discovery twice is one."""
    old = tree("apple", 14, 16, 4, 3, "Old apple")
    old = replace(old, attributes={**old.attributes, "cultivar": "Discovery"})
    made = field([BRAMLEY, DISCOVERY, COX], row_of_pegs(7, 7, y=6), [old])
    asked = Order((Wish("Bramley", 1, (0,)), Wish("Discovery", 1, (1,))))
    assert place_order(made, asked, pegs_of(made)).unmet
    with_cox = Order((Wish("Bramley", 1, (0,)), Wish("Cox", 1, (2,))))
    assert place_order(made, with_cox, pegs_of(made)).unmet == ()


def test_a_blocked_hole_moves_one_tree_and_says_which_and_what_it_costs(made, asked, placed):
    hit = placed.trees[2]
    found = replaced(made, asked, placed, [hit.place])
    before = {(tree.place, tree.option) for tree in placed.trees}
    after = {(tree.place, tree.option) for tree in found.trees}
    assert len(before - after) == 1
    assert found.notes[0].startswith(f"{STELLA.label} moves ")
    assert f"from {hit.name} to " in found.notes[0]
    assert " % less: " in found.notes[1]
    assert found.total <= placed.total + 1e-4


def test_trees_once_bought_stay_the_trees_they_are():
    """Where any apple would do, a blocked hole still moves the apple that was bought."""
    made = field([COX, DISCOVERY, SPARTAN], row_of_pegs(6, 6, 6))
    asked = Order((Wish("apple", 2, (0, 1, 2)),))
    placed = place_order(made, asked, pegs_of(made))
    bought = sorted(tree.option for tree in placed.trees)
    found = replaced(made, asked, placed, [placed.trees[0].place])
    assert sorted(tree.option for tree in found.trees) == bought


def test_a_plan_without_its_partners_is_not_torn_up_to_find_them():
    made = field([COX, STELLA], [(8, 8), (30, 50), (52, 8), (52, 50)])
    asked = order(made, 1, 1)
    lonely = place_order(made, asked, pegs_of(made))
    assert lonely.unmet
    hit = next(tree for tree in lonely.trees if tree.option == 1)
    found = replaced(made, asked, lonely, [hit.place])
    assert [tree.place for tree in found.trees if tree.option == 0] == [
        tree.place for tree in lonely.trees if tree.option == 0
    ]
    assert found.unmet == ()


def test_alternatives_are_nearly_as_good_all_different_and_say_how(made, asked, placed):
    others = alternatives(made, asked, placed)
    assert others
    sets = [frozenset((t.place, t.option) for t in one.trees) for one in (placed, *others)]
    assert len(set(sets)) == len(sets)
    for other in others:
        assert placed.total * 0.98 - 1e-4 <= other.total <= placed.total + 1e-4
        assert broken_rules(made, asked, other) == []
        assert other.notes[-1].startswith("In all ")
        assert len(sets[0] - {(t.place, t.option) for t in other.trees}) >= 2


def test_there_is_no_alternative_to_what_is_not_the_best(made, asked, placed):
    assert alternatives(made, asked, replace(placed, proven=False)) == ()
