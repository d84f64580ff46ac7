"""Leaves come in April and fall with October in the north, half a year later in the south."""

import numpy as np
import pytest

from model.land.leaf_season import DAYS, leaf_share, monthly_transmission


def test_days_in_leaf_add_up():
    assert (leaf_share(52.0) * DAYS).sum() == pytest.approx(304 - 110 + 1)


def test_the_south_is_in_leaf_when_the_north_is_bare():
    assert leaf_share(-36.0).tolist() == np.roll(leaf_share(52.0), 6).tolist()
    assert leaf_share(-36.0)[[11, 0, 6]].tolist() == [1, 1, 0]


def test_a_crown_lets_through_its_two_figures_and_something_between_in_spring():
    through = monthly_transmission([0.2, 0.08], [0.6, 0.08], leaf_share(52.0))
    assert through.shape == (2, 12)
    assert through[0, [0, 6]].tolist() == [0.6, 0.2]
    assert 0.2 < through[0, 3] < 0.6
    assert through[1] == pytest.approx(np.full(12, 0.08))  # evergreen
