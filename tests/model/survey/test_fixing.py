"""Tapes that do not meet, and tapes that hardly cross."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.survey.fixing import offset_place, taped_fix
from model.survey.measuring import distance

METRES = st.floats(-50, 50).map(lambda figure: round(figure, 2))
PLACE = st.tuples(METRES, METRES)


@given(PLACE, PLACE, PLACE)
def test_a_fix_is_as_far_from_both_points_as_the_tapes_say(first, second, truth):
    if distance(first, second) < 0.5:
        return
    reach, other = distance(first, truth), distance(second, truth)
    for side in ("left", "right"):
        place = taped_fix(first, reach, second, other, side).place
        assert distance(first, place) == pytest.approx(reach, abs=1e-3)
        assert distance(second, place) == pytest.approx(other, abs=0.05)


def test_tapes_too_short_say_how_far_apart_the_points_are():
    with pytest.raises(ValueError, match=r"tapes of 4 m and 5 m do not meet: .* 12\.00 m apart"):
        taped_fix((0, 0), 4, (12, 0), 5, "left")


def test_a_tape_that_reaches_past_the_other_is_said():
    with pytest.raises(ValueError, match="longer than the other"):
        taped_fix((0, 0), 20, (5, 0), 2, "left")


def test_one_point_is_no_base():
    with pytest.raises(ValueError, match="one and the same"):
        taped_fix((1, 1), 3, (1, 1), 3, "left")
    with pytest.raises(ValueError, match="one and the same"):
        offset_place((1, 1), (1, 1), 3, 3, "left")


def test_tapes_that_hardly_cross_are_weak():
    assert taped_fix((0, 0), 5.1, (10, 0), 5.1, "left").is_weak
    assert not taped_fix((0, 0), 7, (10, 0), 7, "left").is_weak
