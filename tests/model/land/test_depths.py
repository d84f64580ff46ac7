"""A crown is put in and taken out alone, and touches only its own patches."""

import numpy as np
import pytest

from model.land.covers import NOTHING, Cover, Crown, crown_cover
from model.land.depths import add, patch_shares
from model.land.sun_patches import sun_patches

SKY = sun_patches(52.0).sky
EYES = np.random.default_rng(1).uniform((-30, -30, 1), (30, 30, 3), (50, 3))


def cover(x, y=0.0):
    return crown_cover(Crown(x, y, 4, 1, 9), EYES, SKY.circle, SKY.used)


def depth_of(*covers):
    depth = np.zeros((len(EYES), len(SKY.row)), np.float32)
    for one in covers:
        add(depth, SKY, one, 0.3)
    return depth


def test_a_moved_crown_taken_out_and_put_back_is_as_if_it_had_always_stood_there():
    depth = depth_of(cover(0), cover(10))
    add(depth, SKY, cover(0), 0.3, sign=-1)
    add(depth, SKY, cover(-10), 0.3)
    assert depth == pytest.approx(depth_of(cover(10), cover(-10)), abs=1e-5)


def test_a_crown_touches_its_own_patches_only():
    place, patch, share = patch_shares(SKY, cover(0))
    touched = np.zeros((len(EYES), len(SKY.row)), bool)
    touched[place, patch] = True
    assert touched.sum() == len(place)  # none twice
    assert 0 < touched.mean() < 0.2
    assert (depth_of(cover(0))[~touched] == 0).all()
    assert (share > 0).all()
    assert (share <= 1).all()


def test_a_patch_half_hidden_lets_half_through():
    column = int(np.flatnonzero(SKY.used)[60])
    row = int(SKY.first_row[column]) + 2
    middle = (row + 0.5) * SKY.row_height
    span = Cover(*(np.array([v]) for v in (0, column, NOTHING, middle)))
    depth = np.zeros((1, len(SKY.row)), np.float32)
    add(depth, SKY, span, 0.0)
    share = np.exp(-depth[0, SKY.start[column] + SKY.first_row[column] :][:4])
    assert share == pytest.approx([0, 0, 0.5, 1], abs=1e-4)
