"""What a new tree takes is what the place has without it less what it has with it."""

import numpy as np
import pytest

from model.land.covers import Crown, Screen
from model.land.own_shade import sun_taken
from model.land.shade import Standing, direct_hours, views
from model.land.sun_patches import sun_hours

BED = np.array([5.0, 8.0, 0.3])
TREES = np.random.default_rng(2).uniform((-15, -15, -0.5), (25, 25, 0.5), (30, 3))
STANDING = Standing([Screen([(0, 0), (20, 0)], 3)], [Crown(8, 2, 2, 1, 5, (0.4,) * 12)])


def test_a_new_tree_takes_what_it_shades():
    through = 0.25
    _, patches, view = next(views(BED[None], STANDING, 52.0))
    worth = (1 - through) * view[0] * sun_hours(patches).sum(axis=0)
    taken = sun_taken(Crown(0, 0, 2.5, 0.8, 5.0), TREES, BED, patches.sky, worth)
    before = direct_hours(BED[None], STANDING, 52.0).sum()
    for tree, loss in zip(TREES, taken, strict=True):
        x, y, ground = tree
        new = Crown(x, y, 2.5, ground + 0.8, ground + 5.0, (through,) * 12)
        with_it = Standing(STANDING.screens, [*STANDING.crowns, new])
        after = direct_hours(BED[None], with_it, 52.0).sum()
        assert loss == pytest.approx(before - after, abs=0.1)
    assert taken.max() > 300


def test_a_tree_on_the_pole_side_takes_hardly_anything():
    _, patches, view = next(views(BED[None], Standing(), 52.0))
    worth = view[0] * sun_hours(patches).sum(axis=0)
    places = BED + np.array([[0, 8, 0], [0, -8, 0]])
    north, south = sun_taken(Crown(0, 0, 2.5, 0.8, 5.0), places, BED, patches.sky, worth)
    assert north < 0.1 * south
