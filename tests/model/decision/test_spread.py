"""Promises of the spread over places."""

import numpy as np

from model.decision.spread import spread


def test_a_spread_is_the_middle_nine_tenths_and_the_median() -> None:
    assert spread(np.arange(101.0)) == (5, 50, 95)


def test_places_that_are_not_known_do_not_count() -> None:
    assert spread(np.array([[np.nan, 1.0], [2.0, 3.0]]), 0, 1) == (1, 2, 3)


def test_the_same_everywhere_has_no_width() -> None:
    assert spread(np.full(9, 0.4)).width == 0


def test_nothing_known_has_no_spread() -> None:
    assert np.isnan(spread(np.array([np.nan]))).all()
