"""Picking is spread over the season as asked, in either hemisphere."""

import numpy as np
import pytest

from model.planting.order import Order, Wish
from model.planting.picking import PickingSpread, dates_in_words, windows
from model.planting.placing import place_order
from tests.model.planting.orders import (
    COX,
    DISCOVERY,
    SPARTAN,
    broken_rules,
    field,
    order,
    pegs_of,
    row_of_pegs,
)

FIRST, LAST = np.array([210.0, 240.0, np.nan]), np.array([223.0, 265.0, np.nan])
ALL = np.array([True, True, True])


def test_an_order_is_picked_as_it_comes_unless_asked():
    assert windows(FIRST, LAST, ALL, PickingSpread(), north=True) == ()


def test_parts_cover_the_season_from_the_first_pick_to_the_last():
    found = windows(FIRST, LAST, ALL, PickingSpread(parts=2), north=True)
    assert [window.label for window in found] == [
        "29 July to 25 August", "26 August to 22 September",
    ]  # fmt: skip
    assert [window.options for window in found] == [(True, False, False), (False, True, False)]
    assert all((window.least, window.most) == (1, np.inf) for window in found)


def test_fortnights_follow_one_another_and_hold_who_is_ripe_in_them():
    found = windows(FIRST, LAST, ALL, PickingSpread(most_at_once=1), north=True)
    assert len(found) == 4
    assert [window.options[:2] for window in found] == [
        (True, False), (False, False), (False, True), (False, True),
    ]  # fmt: skip
    assert {window.most for window in found} == {1}


def test_a_pick_past_new_year_is_later_than_one_before_it():
    found = windows(
        np.array([340.0]), np.array([10.0]), ALL[:1], PickingSpread(parts=1), north=True
    )
    assert found[0].label == "6 December to 10 January"


def test_the_south_picks_half_a_year_later():
    assert dates_in_words(244, 257, north=False) == "2 March to 15 March"


@pytest.fixture(scope="module")
def orchard():
    return field([DISCOVERY, COX, SPARTAN], row_of_pegs(7, 7, 7))


def test_a_tree_ripe_in_each_part_brings_in_the_early_apple(orchard):
    asked = Order((Wish("apple", 2, (0, 1, 2)),), picking=PickingSpread(parts=3))
    placed = place_order(orchard, asked, pegs_of(orchard))
    assert broken_rules(orchard, asked, placed) == []
    first = [orchard.traits.pick_first[tree.option] for tree in placed.trees]
    last = [orchard.traits.pick_last[tree.option] for tree in placed.trees]
    assert min(first) == np.nanmin(orchard.traits.pick_first)
    assert max(last) == np.nanmax(orchard.traits.pick_last)


def test_more_ripe_at_once_than_asked_is_said(orchard):
    asked = order(orchard, 0, 1, 1, picking=PickingSpread(most_at_once=1))
    placed = place_order(orchard, asked, pegs_of(orchard))
    assert any("Allow 2 trees ripe from" in sentence for sentence in placed.unmet)
    assert len(placed.trees) == 2
