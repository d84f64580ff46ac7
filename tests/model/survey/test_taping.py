"""A pasted list of tapes: each line a point or a fault of its own."""

import pytest

from model.survey.taping import METHODS, taped_positions

KNOWN = {"A": (0.0, 0.0), "B": (12.0, 0.0)}


def test_each_line_gives_a_point_and_the_next_may_start_from_it():
    heading = "name, from, metres, and from, metres again, side"
    text = f"{heading}\nC, A, 9, B, 15 m, left\nD, C, 12, B, 9, left"
    taped, faults = taped_positions(text, "tapes", KNOWN)
    assert not faults
    assert [one.name for one in taped] == ["C", "D"]
    assert taped[0].place == pytest.approx((0, 9))
    assert taped[1].place == pytest.approx((12, 9))


def test_all_faults_are_said_by_row_and_the_right_lines_still_count():
    lines = ("C, A, 8, B, 8", "D, A, 4, B, 5", "E, Q, 4, B, 9", "C, A, 9, B, 9", "F, A, x, B, 9")
    text = ", left\n".join(lines).replace("9, left\nC", "9, up\nC") + ", left"
    taped, faults = taped_positions(text, "tapes", KNOWN)
    assert [one.name for one in taped] == ["C"]
    assert [(one.row, one.field) for one in faults] == [
        (2, ""),
        (3, "side"),
        (3, "from"),
        (4, "name"),
        (5, "metres"),
    ]
    assert "tapes of 4 m and 5 m do not meet: the known points are 12.00 m apart" in str(faults[0])


@pytest.mark.parametrize("separator", [", ", ";", "\t"])
def test_cells_may_come_from_a_spreadsheet(separator):
    text = separator.join(["C", "A", "B", "3", "2", "right"])
    taped, _ = taped_positions(text, "base line", KNOWN)
    assert taped[0].place == pytest.approx((3, -2))


def test_a_bearing_is_clockwise_from_north():
    taped, _ = taped_positions("C, A, 90, 5", "bearing", KNOWN)
    assert taped[0].place == pytest.approx((5, 0))


def test_a_weak_fix_is_said():
    taped, _ = taped_positions("C, A, 6.05, B, 6.05, left", "tapes", KNOWN)
    assert "weak" in taped[0].note


def test_too_many_cells_and_too_many_lines_are_faults():
    assert taped_positions("C, A, 90, 5, 6", "bearing", KNOWN)[1][0].row == 1
    many = "\n".join(f"P{n}, A, 90, 5" for n in range(600))
    taped, faults = taped_positions(many, "bearing", KNOWN)
    assert len(taped) == 500
    assert len(faults) == 1


def test_every_method_takes_an_empty_list():
    for method in METHODS:
        assert taped_positions(" \n\n", method, KNOWN) == ((), ())
    with pytest.raises(ValueError, match="expected tapes"):
        taped_positions("", "guess", KNOWN)


def test_a_known_point_is_known_in_other_capitals_too():
    taped, faults = taped_positions("C, a, 9, b, 15, left", "tapes", KNOWN)
    assert not faults
    assert taped[0].place == pytest.approx((0, 9))
    both = {**KNOWN, "b": (9.0, 9.0)}
    taped, _ = taped_positions("C, A, 9, b, 9, left", "tapes", both)
    assert taped[0].place == pytest.approx((0, 9))
