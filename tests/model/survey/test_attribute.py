"""A value is taken when it is right, and what is wrong with it is said otherwise."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.survey.attribute import REQUIRED, Attribute, Wrong, checked_value

HEIGHT = Attribute("height_m", "m", REQUIRED, 0.1, 100)
YEARS = Attribute("years", "", 30.0, 10, 200, whole=True)
SURFACE = Attribute("surface", "", "grass", choices=("grass", "gravel"))


@given(st.floats(0.1, 100))
def test_a_number_within_limits_comes_back_to_the_last_digit(number):
    assert checked_value(HEIGHT, repr(number)) == number
    assert checked_value(HEIGHT, number) == number


@given(st.one_of(st.floats(), st.text(), st.none(), st.booleans(), st.integers(), st.binary()))
def test_whatever_is_given_the_answer_is_a_number_within_limits_or_what_is_wrong(raw):
    value = checked_value(HEIGHT, raw)
    assert isinstance(value, Wrong) or 0.1 <= value <= 100


@pytest.mark.parametrize(
    "raw", ["nan", "inf", "-inf", "1_0", "0x10", "tall", "2 m", "1e9", "", True, math.nan, 10**400]
)
def test_what_is_no_plain_number_is_refused(raw):
    assert isinstance(checked_value(HEIGHT, raw), Wrong)


def test_a_decimal_comma_is_recognised():
    assert "decimal point" in checked_value(HEIGHT, "2,5").mend


def test_a_blank_takes_the_default():
    assert checked_value(SURFACE, "  ") == "grass"
    assert checked_value(YEARS, None) == 30


def test_a_fraction_of_a_whole_number_is_refused():
    assert "decimals" in checked_value(YEARS, "30.5").mend


def test_a_choice_is_answered_with_the_nearest():
    wrong = checked_value(SURFACE, "gravle")
    assert "grass or gravel" in wrong.expected
    assert "'gravel'" in wrong.mend


@pytest.mark.parametrize("raw", ["two\nlines", "tab\there", "\x07", 3, ["a"]])
def test_text_must_be_one_line_of_text(raw):
    assert isinstance(checked_value(Attribute("name", "", ""), raw), Wrong)
