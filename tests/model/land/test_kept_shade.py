"""Shade that is kept and changed is the shade that would have been found anew."""

from dataclasses import replace

import numpy as np
import pytest

from model.land.covers import Crown, Screen
from model.land.kept_shade import kept_shade
from model.land.leaf_season import leaf_share, monthly_transmission
from model.land.shade import Standing, sunlight
from model.land.sun_patches import morning_hours, sun_hours

LEAFY = monthly_transmission(0.2, 0.6, leaf_share(52.0))
EYES = np.random.default_rng(1).uniform((-30, -30, 1), (30, 30, 3), (60, 3))
WALL = Screen([(-20, -9), (15, -12)], 4)
TREES = [Crown(x, 0, 3, 1.5, 8, LEAFY) for x in (-12, 0, 12)]
WORTHS = [sun_hours, morning_hours]


def anew(trees):
    return sunlight(EYES, Standing([WALL], trees), 52.0, WORTHS)


def kept():
    return kept_shade(EYES, Standing([WALL], TREES), 52.0)


def test_kept_shade_is_the_shade():
    assert kept().sunlight(WORTHS) == pytest.approx(anew(TREES), abs=1e-3)


@pytest.mark.parametrize(
    "after",
    [None, replace(TREES[0], top=12.0), replace(TREES[0], x=5.0, y=-6.0)],
    ids=["felled", "grown", "moved"],
)
def test_a_changed_crown_is_as_if_it_had_been_so_before(after):
    shade = kept()
    shade.change(TREES[0], after)
    standing = TREES[1:] if after is None else [after, *TREES[1:]]
    assert shade.sunlight(WORTHS) == pytest.approx(anew(standing), abs=0.01)


def test_a_new_crown_only_takes_sun():
    shade = kept()
    before = shade.sunlight(WORTHS)
    shade.change(None, Crown(4, -4, 2, 1, 5, LEAFY))
    after = shade.sunlight(WORTHS)
    assert (after <= before + 1e-3).all()
    assert after.sum() < before.sum() - 100


def test_a_crown_with_seasons_of_its_own_is_refused_in_words():
    with pytest.raises(ValueError, match="must be the same in the months"):
        kept().change(None, Crown(4, -4, 2, 1, 5, np.linspace(0, 1, 12)))
