"""Least-cost walks against scikit-image, an independent library.

skimage.graph.MCP_Geometric knows no direction, so the ground is level and the steps are eight.
"""

import numpy as np
import pytest
from skimage.graph import MCP_Geometric

from model.land.walking import pace, walking_time

pytestmark = pytest.mark.published


def level_walk(open_ground, start=(0, 0), cell=1.0, pace_factor=1.0):
    """Walk over level ground in paces of a metre of good path."""
    out, _ = walking_time(np.zeros(open_ground.shape), cell, open_ground, start, pace_factor, 8)
    return out / pace(0)


def test_open_ground_gives_the_octile_distance():
    # Worked by hand: diagonal steps of the square root of 2, then straight ones.
    walk = level_walk(np.ones((11, 11), dtype=bool))
    assert walk[10, 10] == pytest.approx(14.14214, abs=1e-5)
    assert walk[10, 4] == pytest.approx(11.65685, abs=1e-5)
    assert walk[10, 0] == pytest.approx(10)


def test_the_way_round_a_wall_is_scikit_images():
    ground = np.ones((11, 11), dtype=bool)
    ground[5, :10] = False
    expected, _ = MCP_Geometric(np.where(ground, 1.0, -1.0)).find_costs([(0, 0)])
    walk = level_walk(ground)
    assert walk[10, 0] == pytest.approx(24.14214, abs=1e-5)
    assert walk[ground] == pytest.approx(expected[ground])


@pytest.mark.parametrize("seed", range(5))
def test_walks_over_mixed_ground_are_scikit_images(seed):
    # Slow and fast ground in whole bands, a river with one bridge; no two closed cells touch at
    # their corners only, where scikit-image would slip through and we do not.
    random = np.random.default_rng(seed)
    factor = np.repeat(np.repeat(random.uniform(1, 3, (6, 5)), 4, axis=0), 5, axis=1)
    ground = np.ones(factor.shape, dtype=bool)
    ground[:, 12] = False
    ground[random.integers(0, 24), 12] = True
    expected, _ = MCP_Geometric(np.where(ground, factor, -1.0), sampling=(2, 2)).find_costs(
        [(3, 2)]
    )
    walk = level_walk(ground, (3, 2), cell=2.0, pace_factor=factor)
    assert walk[ground] == pytest.approx(expected[ground])


def test_costs_are_the_mean_of_two_cells():
    # scikit-image's documentation of MCP_Geometric: half a step in each cell.
    factor = np.array([[1.0, 1, 1, 3, 3, 3]])
    walk = level_walk(np.ones((1, 6), dtype=bool), pace_factor=factor)
    assert walk[0] == pytest.approx([0, 1, 2, 4, 7, 10])
