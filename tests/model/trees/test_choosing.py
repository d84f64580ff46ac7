"""Finding trees: every filter against the catalogue it filters, and against the calendar."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.trees import Option, traits
from model.trees.choosing import (
    MONTH_STARTS,
    found_words,
    named,
    needs_no_partner,
    no_taller,
    of_use,
    ordered,
    ripe_in,
)
from tests.model.small_site import CATALOGUE

OPTIONS = CATALOGUE.options()
DAY = st.integers(1, 365)


def test_a_search_finds_by_every_name_an_option_goes_by():
    words = found_words(CATALOGUE, OPTIONS)
    for text in ("bramley m25", "BRAMLEYS SEEDLING M25", "apple Bramley M25"):
        found = [o for o, hit in zip(OPTIONS, named(words, text), strict=True) if hit]
        assert found == [Option("apple", "Bramley", "M25")]
    assert named(words, "").all()
    assert not named(words, "no such tree").any()


def test_dual_fruit_serves_the_table_and_the_kitchen_and_nuts_neither():
    uses = ("dessert", "cooking", "dual", "nut", "")
    assert of_use(uses, "dessert").tolist() == [True, False, True, False, False]
    assert of_use(uses, "cooking").tolist() == [False, True, True, False, False]
    assert of_use(uses, "nut").tolist() == [False, False, False, True, False]


def test_an_unknown_height_is_not_called_small():
    assert no_taller([3.5, 3.6, np.nan], 3.5).tolist() == [True, False, False]


@given(DAY, st.integers(0, 100), st.integers(1, 12))
def test_a_fruit_is_ripe_in_a_month_when_one_of_its_days_is(first, length, month):
    days = {(first + n - 1) % 365 + 1 for n in range(length + 1)}
    in_month = set(range(MONTH_STARTS[month - 1], MONTH_STARTS[month]))
    last = (first + length - 1) % 365 + 1
    assert bool(ripe_in([first], [last], month, north=True)[0]) == bool(days & in_month)


@given(DAY, st.integers(1, 12))
def test_half_the_world_away_the_harvest_is_half_a_year_later(day, month):
    later = (day + 182 - 1) % 365 + 1
    assert ripe_in([day], [day], month, north=False) == ripe_in([later], [later], month, north=True)


def test_the_months_are_those_of_the_calendar():
    # Source: the Gregorian calendar, days of a common year.
    assert np.diff(MONTH_STARTS).tolist() == [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]


def test_victoria_crops_alone_and_coxs_does_not():
    # Source: RHS, Fruit trees: choosing the best - Victoria is self-fertile, Cox's Orange Pippin
    # needs a partner (common knowledge of the trade, from memory).
    of = traits(
        CATALOGUE,
        [Option("european_plum", "Victoria", "Pixy"), Option("apple", "Cox's Orange Pippin", "M9")],
    )
    assert needs_no_partner(of.self_fertile, of.pollination).tolist() == [True, False]


@given(st.lists(st.one_of(st.floats(-10, 10), st.just(float("nan"))), max_size=20), st.booleans())
def test_an_order_holds_every_option_once_and_the_unknown_last(key, falling):
    numbers = ordered(key, falling=falling)
    assert sorted(numbers.tolist()) == list(range(len(key)))
    in_order = np.array([key[n] for n in numbers])
    known = in_order[~np.isnan(in_order)]
    assert np.isnan(in_order[known.size :]).all()
    steps = np.diff(known)
    assert (steps <= 0).all() if falling else (steps >= 0).all()


@pytest.mark.parametrize("falling", [False, True])
def test_ties_keep_the_order_they_came_in(falling):
    assert ordered([1.0, 1.0, 1.0], falling=falling).tolist() == [0, 1, 2]
