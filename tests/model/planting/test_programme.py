"""A programme says at once when its arrays do not fit together."""

from dataclasses import replace

import numpy as np
import pytest

from model.planting.solver.programme import Solution

from .cases import programme


def test_an_array_of_the_wrong_shape_is_named():
    with pytest.raises(ValueError, match="radius must be of shape"):
        replace(programme(0), radius=np.ones((2, 2)))


def test_pollen_is_the_cultivar_s_whatever_it_is_grafted_on():
    g = programme(0)
    partners = g.partners.copy()
    partners[1, -1] = 0.25
    with pytest.raises(ValueError, match="cultivar 0"):
        replace(g, partners=partners)


def test_needs_and_partners_come_together():
    with pytest.raises(ValueError, match="together"):
        replace(programme(0), needs=None)


def test_a_closed_position_allows_nothing():
    g = replace(programme(0), blocked=(2,))
    assert not g.allowed[2].any()
    assert g.allowed.any()


def test_the_gap_is_a_share_of_the_bound():
    assert Solution((), 9.0, 10.0, "time", 1.0).gap == pytest.approx(0.1)
