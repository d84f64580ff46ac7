"""A dragged peg says at once what it gains or loses, and why it may not stand there."""

import numpy as np
import pytest

from model.planting.moving_peg import PegMoves, worth_if_moved
from model.planting.placing import place_order
from tests.model.planting.orders import COX, DISCOVERY, STELLA, field, order, pegs_of
from tests.model.small_site import LineString, feature


@pytest.fixture(scope="module")
def plan():
    pipe = feature(
        "buried_service", LineString([(0, 50), (60, 50)]), "the main", service="water",
        clearance_m=2.0,
    )  # fmt: skip
    made = field([COX, DISCOVERY, STELLA], [(8, 8), (15, 8), (8, 30), (52, 10)], [pipe])
    asked = order(made, 1, 1, 1)
    return made, asked, place_order(made, asked, pegs_of(made))


def moved(plan, option, x, y):
    made, asked, placed = plan
    tree = next(tree for tree in placed.trees if tree.option == option)
    return worth_if_moved(made, asked, placed, tree, made.ground.places.nearest(x, y, 0.5))


def test_a_peg_left_where_it_is_changes_nothing(plan):
    made, asked, placed = plan
    for tree in placed.trees:
        found = worth_if_moved(made, asked, placed, tree, tree.place)
        assert found.change == 0
        assert found.reasons == ()


def test_a_free_place_says_what_it_gains_or_loses(plan):
    made, _, placed = plan
    found = moved(plan, 2, 41, 29)
    stella = next(tree for tree in placed.trees if tree.option == 2)
    there = made.shown_scores(2)[made.ground.places.nearest(41, 29, 0.5)]
    assert found.reasons == ()
    assert found.change == pytest.approx(there - stella.score, abs=1e-5)


def test_a_pipe_a_crowd_and_a_place_off_the_land_are_said(plan):
    assert "the main" in moved(plan, 2, 31, 49).reasons[0]
    assert np.isnan(moved(plan, 2, 31, 49).change)
    _, _, placed = plan
    cox = next(tree for tree in placed.trees if tree.option == 0)
    crowd = moved(plan, 2, cox.x + 1, cox.y + 2)
    assert "with room to walk between the grown crowns it takes" in crowd.reasons[0]
    assert COX.label in crowd.reasons[0]
    assert moved(plan, 2, -1, -1).reasons


def test_both_who_lose_their_partner_are_named(plan):
    found = moved(plan, 1, 45, 29)
    assert len(found.reasons) == 2
    assert all("too few partners within 18 m" in reason for reason in found.reasons)
    assert {COX.label, DISCOVERY.label} == {reason.split(" at ")[0] for reason in found.reasons}


def test_a_plan_kept_open_for_dragging_says_the_same_at_every_place(plan):
    made, asked, placed = plan
    moves = PegMoves(made, asked, placed)
    for tree in placed.trees:
        for place in range(0, made.ground.places.x.size, 97):
            one, other = moves.moved(tree, place), worth_if_moved(made, asked, placed, tree, place)
            assert one.reasons == other.reasons
            assert one.change == pytest.approx(other.change, nan_ok=True)
