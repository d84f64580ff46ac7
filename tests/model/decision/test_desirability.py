"""Promises of the desirability curves."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.decision.desirability import FLOOR, Curve, desirability

RISING = Curve((2.0, 4.0, 6.0), (0.0, 0.5, 1.0))


def test_knots_are_met_and_joined_by_straight_lines() -> None:
    assert desirability(np.array([4.0, 5.0, 6.0]), RISING).tolist() == [0.5, 0.75, 1.0]


def test_beyond_its_ends_a_curve_is_held_flat() -> None:
    assert desirability(np.array([-50.0, 50.0]), RISING).tolist() == [FLOOR, 1.0]


def test_merely_poor_is_never_zero() -> None:
    assert desirability(2.0, RISING) == FLOOR


def test_what_is_not_known_stays_unknown() -> None:
    assert np.isnan(desirability(np.array([np.nan, 4.0]), RISING)).tolist() == [True, False]


def test_the_shape_is_kept() -> None:
    assert desirability(np.full((3, 4), 5.0), RISING).shape == (3, 4)


@given(st.floats(0, 10), st.floats(0, 10))
def test_more_is_never_worse_on_a_rising_curve(a: float, b: float) -> None:
    low, high = desirability(np.array(sorted((a, b))), RISING)
    assert low <= high


@pytest.mark.parametrize(
    ("x", "y", "mend"),
    [
        ((1.0,), (1.0,), "giving each knot one of both"),
        ((1.0, 2.0), (1.0,), "giving each knot one of both"),
        ((2.0, 1.0), (0.0, 1.0), "sorting the knots"),
        ((1.0, 1.0), (0.0, 1.0), "dropping repeated ones"),
        ((1.0, np.nan), (0.0, 1.0), "sorting the knots"),
        ((1.0, 2.0), (0.0, 1.1), "into that range"),
        ((1.0, 2.0), (0.0, np.nan), "into that range"),
    ],
)
def test_a_curve_that_is_none_is_refused_with_a_mend(x: tuple, y: tuple, mend: str) -> None:
    with pytest.raises(ValueError, match=mend):
        Curve(x, y)
