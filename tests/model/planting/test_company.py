"""What a move means to the other trees. Source of the statements: common practice, no source."""

from dataclasses import replace
from datetime import date

import pytest

from model.planting.year_after.company import notes_on_moving
from model.planting.year_after.evidence import place_of
from model.planting.year_after.keep_or_move import judged_tree
from model.planting.year_after.observations import Observation
from model.planting.year_after.standing import StandingTree
from model.planting.year_after.worths import Worths
from model.trees import Option
from tests.model.small_site import spot, study

ON = date(2027, 11, 1)
PEGS = (spot("A", 5, 5), spot("B", 55, 55), spot("C", 5, 20))
APPLES = (Option("apple", "Discovery", "M9"), Option("apple", "Egremont Russet", "M9"))
SHADE = [
    Observation("A", day, "sun_hours", 4.0, 0.5) for day in (date(2027, 6, 20), date(2027, 9, 9))
]


@pytest.fixture(scope="module")
def field():
    return study(options=APPLES, spots=PEGS)


def trees(field):
    return [
        StandingTree("A", place_of(field, "A"), 0, date(2027, 2, 10)),
        StandingTree("C", place_of(field, "C"), 1, date(2027, 2, 10)),
    ]


def notes(field, advice="move"):
    worths, both = Worths(field, SHADE), trees(field)
    judged = replace(judged_tree(field, both[0], both, SHADE, ON, worths=worths), advice=advice)
    return notes_on_moving(field, judged, both, worths)


def test_room_is_told_from_crown_to_crown_at_full_size(field):
    # 55 - 5 = 50 m east and 55 - 20 = 35 m north: 61 m between the pegs, less two half crowns
    assert "from that of Egremont Russet on M9 at C" in notes(field)[0]
    away = float(notes(field)[0].split("ends ")[1].split(" m")[0])
    assert 56 <= away < 61


def test_a_partner_left_behind_is_named_with_its_distance(field):
    said = " ".join(notes(field))
    assert "Its partner in flower stays behind: Egremont Russet on M9 at C, 15 m" in said
    assert "Egremont Russet on M9 at C loses its nearest partner, 15 m off" in said


def test_the_peg_that_falls_free_says_who_could_follow(field):
    assert notes(field)[-1].startswith("A falls free")


def test_a_tree_that_stays_needs_no_notes(field):
    assert notes(field, advice="keep") == ()
