"""Promises of what measuring is worth."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.decision.information import (
    Information,
    known_sd,
    margin_worth,
    unit_normal_loss,
    worth_first,
    worth_of_measuring,
)

positive = st.floats(0.01, 10)


@given(positive, positive, st.floats(0, 10), st.floats(0, 10))
def test_a_better_instrument_is_never_worth_less(margin, sd, error, more) -> None:
    good, poor = (margin_worth(margin, known_sd(sd, tau)) for tau in (error, error + more))
    assert good.gain >= poor.gain - 1e-12
    assert good.change >= poor.change - 1e-12
    assert good.gain <= margin_worth(margin, sd).gain + 1e-12


@given(st.floats(-5, 5))
def test_what_is_lost_either_side_differs_by_the_margin(z: float) -> None:
    assert unit_normal_loss(-z) - unit_normal_loss(z) == pytest.approx(z)


def test_nothing_unknown_is_worth_nothing() -> None:
    found = margin_worth([0.1, 0.0], 0.0)
    assert found.gain.tolist() == [0, 0]
    assert found.change.tolist() == [0, 0]
    assert known_sd(0.0, 0.0) == 0
    assert known_sd(0.3, 0.0) == pytest.approx(0.3)


def test_level_alternatives_change_often_but_gain_with_what_parts_them() -> None:
    slight, far = (margin_worth(0.0, sd) for sd in (1e-6, 1.0))
    assert slight.change == far.change == pytest.approx(0.5)
    assert slight.gain == pytest.approx(1e-6 / np.sqrt(2 * np.pi))


RNG = np.random.default_rng(8)
X = RNG.standard_normal(2000)


def test_a_figure_without_bearing_is_worth_nothing_even_between_level_alternatives() -> None:
    utilities = 0.5 + 0.05 * RNG.standard_normal((2000, 10))
    for _ in range(20):
        assert worth_of_measuring(utilities, RNG.standard_normal(2000)) == (0.0, 0.0)


def test_twins_never_take_turns() -> None:
    assert worth_of_measuring(np.stack([X, X], axis=1), X) == (0.0, 0.0)


def test_what_never_varies_is_worth_nothing() -> None:
    utilities = np.stack([X, np.zeros(2000)], axis=1)
    assert worth_of_measuring(utilities, np.full(2000, 3.1)) == (0.0, 0.0)


def test_an_alternative_good_only_in_the_middle_is_found() -> None:
    # Always 0, or 1 - x squared: known beforehand, max(0, 1 - x^2) is had, on average
    # 2 phi(1) = .48394; the mean of 1 - x^2 is 0; the choice differs where |x| > 1 or < 1.
    found = worth_of_measuring(np.stack([0 * X, 1 - X**2], axis=1), X)
    ahead = max((1 - X**2).mean(), 0)
    assert found.gain == pytest.approx(np.maximum(0, 1 - X**2).mean() - ahead, abs=0.02)
    assert found.gain == pytest.approx(2 * 0.241971, abs=0.06)  # standard normal density at 1


def test_a_useless_instrument_is_worth_nothing() -> None:
    utilities = np.stack([X, -X], axis=1)
    assert worth_of_measuring(utilities, X, 1e6) == (0.0, 0.0)
    assert worth_of_measuring(utilities, X).gain == pytest.approx(np.abs(X).mean(), rel=0.05)


def test_readings_are_the_same_for_the_same_seed() -> None:
    utilities = np.stack([X, 0 * X], axis=1)
    once, again, other = (worth_of_measuring(utilities, X, 1.0, seed) for seed in (1, 1, 2))
    assert once == again
    assert once != other
    assert once.gain == pytest.approx(other.gain, rel=0.1)


def test_most_gained_for_its_effort_is_measured_first() -> None:
    found = [Information(0.2, 0.1), Information(0.3, 0.1), Information(0.2, 0.4)]
    assert worth_first(found).tolist() == [1, 2, 0]
    assert worth_first(found, [1, 3, 1]).tolist() == [2, 0, 1]
