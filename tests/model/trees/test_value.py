"""A value keeps its unit, source and status, and reads as a number or as words."""

import math

from model.trees import Value


def test_words_are_split_at_semicolons():
    assert Value("Williams; Beurré Bosc;", "", "s", "common", "").words == (
        "Williams",
        "Beurré Bosc",
    )


def test_words_are_no_number():
    assert math.isnan(Value("moist", "", "s", "common", "").number)


def test_a_number_stays_one():
    assert Value(3.5, "m", "s", "verified", "").number == 3.5
