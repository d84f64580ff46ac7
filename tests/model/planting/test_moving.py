"""Keep, move or wait by their worth. Source of the statements: common practice, no source."""

import csv
from datetime import date

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as some

from model.planting.year_after.moving import (
    Chances,
    Terms,
    advice,
    comparison,
    survival_needed,
    worth_of_moving,
    worth_of_staying,
)
from model.planting.year_after.transplanting import FILE, next_window, survival, transplanting_table

EASY = Chances(0.95, 0.9, 2.0)
HARD = Chances(0.92, 1.3, 3.0)
SCORES = some.floats(0.05, 1.0)


def draws(score: float, sd: float, seed: int = 1) -> np.ndarray:
    noise = np.random.default_rng(seed).standard_normal(400)
    return score + sd * (noise - noise.mean()) / noise.std()


def decided(stays: float, moves: float, sd: float = 0.0, doubted: tuple[str, ...] = ()) -> str:
    compared = comparison(draws(stays, sd), draws(moves, sd, 2), EASY, HARD, Terms())
    return advice(compared, moves - stays, Terms(), doubted)


def test_a_much_better_place_is_worth_a_move():
    assert decided(0.5, 0.8) == "move"


def test_a_tie_is_kept():
    assert decided(0.80, 0.81) == "keep"
    assert decided(0.80, 0.805, sd=0.2) == "keep"


def test_a_gain_too_small_for_the_check_is_kept():
    assert decided(0.80, 0.82) == "keep"


def test_where_little_is_known_another_year_of_watching_may_be_worth_more():
    assert decided(0.70, 0.74, sd=0.0) == "keep"
    assert decided(0.70, 0.74, sd=0.15) == "wait"


def test_a_move_that_rests_on_a_doubtful_reading_waits():
    assert decided(0.5, 0.8, doubted=("sun_hours",)) == "wait"


@given(stays=SCORES, moves=SCORES)
def test_moving_pays_exactly_where_the_tree_lives_oftener_than_needed(stays, moves):
    terms = Terms(cost=0.2)
    needed = survival_needed(stays, moves, EASY, terms)
    gain = worth_of_moving(moves, EASY, terms) - worth_of_staying(stays, terms)
    assert (gain > 1e-9) == (needed < EASY.survival - 1e-9) or abs(gain) < 1e-6


@given(stays=SCORES, moves=SCORES, sd=some.floats(0, 0.2))
def test_waiting_is_never_worth_less_than_staying(stays, moves, sd):
    compared = comparison(draws(stays, sd), draws(moves, sd, 2), EASY, HARD, Terms())
    assert compared.wait >= compared.stay - 1e-9


@given(moves=SCORES, lives=some.floats(0, 0.99))
def test_a_tree_that_takes_a_move_better_is_worth_more_moved(moves, lives):
    worths = [worth_of_moving(moves, Chances(p, 0.9, 2.0), Terms()) for p in (lives, lives + 0.01)]
    assert worths[1] >= worths[0]


def test_older_trees_and_taproots_take_a_move_worse():
    lives = [survival(age, "apple") for age in (1, 2, 3, 4, 5, 6.5, 8, 20)]
    assert lives == sorted(lives, reverse=True)
    assert survival(1, "walnut") < survival(1, "sweet_cherry") < survival(1, "apple")


def test_the_southern_window_is_half_a_year_away():
    assert (
        str(next_window(date(2028, 4, 20), -35.2)) == "between 25 April 2028 and 15 September 2028"
    )
    assert (
        str(next_window(date(2028, 10, 1), -35.2)) == "between 25 April 2029 and 15 September 2029"
    )


@pytest.mark.parametrize(
    ("on", "first", "last"),
    [
        (date(2027, 10, 24), date(2027, 10, 25), date(2028, 3, 15)),
        (date(2027, 12, 24), date(2027, 12, 24), date(2028, 3, 15)),
        (date(2028, 3, 15), date(2028, 3, 15), date(2028, 3, 15)),
        (date(2028, 3, 16), date(2028, 10, 25), date(2029, 3, 15)),
    ],
)
def test_a_window_that_is_open_runs_from_today(on, first, last):
    window = next_window(on, 52.0)
    assert (window.first, window.last) == (first, last)


def test_every_value_on_moving_has_its_source():
    lines = FILE.read_text(encoding="utf-8").splitlines()
    assert len(lines) - 1 == len(transplanting_table())
    for row in csv.DictReader(lines):
        assert row["source"]
        assert row["status"] in ("verified", "memory", "common")
