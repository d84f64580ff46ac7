"""Walking times: level ground, slopes, walls, gates and corners."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.land.walking import nearest_open, pace, walking_time

SEEDS = st.integers(0, 10**6)
START = (0, 0)


def rough_ground(seed, shape=(9, 11)):
    """Random hills and scattered closed cells, the start open."""
    random = np.random.default_rng(seed)
    ground = random.random(shape) > 0.25
    ground[START] = True
    return random.normal(size=shape).cumsum(axis=0), ground


@given(seed=SEEDS)
@settings(max_examples=40, deadline=None)
def test_on_level_ground_the_way_back_takes_as_long_as_the_way_out(seed):
    _, ground = rough_ground(seed)
    out, back = walking_time(np.zeros(ground.shape), 2.0, ground, START)
    assert out == pytest.approx(back)


@given(seed=SEEDS, neighbours=st.sampled_from([8, 16]))
@settings(max_examples=40, deadline=None)
def test_a_wall_never_shortens_a_walk_and_a_gate_never_lengthens_it(seed, neighbours):
    z, ground = rough_ground(seed)
    walled = ground.copy()
    walled[5] = False
    gated = walled.copy()
    gated[5, seed % 11] = True
    without, _ = walking_time(z, 2.0, ground | gated, START, neighbours=neighbours)
    wall, _ = walking_time(z, 2.0, walled, START, neighbours=neighbours)
    gate, _ = walking_time(z, 2.0, gated, START, neighbours=neighbours)
    assert (wall >= gate - 1e-9).all()
    assert (gate >= without - 1e-9).all()


def test_a_wall_right_across_cuts_the_ground_off():
    ground = np.ones((6, 6), dtype=bool)
    ground[3] = False
    out, back = walking_time(np.zeros((6, 6)), 1.0, ground, START)
    assert np.isinf(out[3:]).all()
    assert np.isinf(back[4:]).all()
    assert np.isfinite(out[:3]).all()


@pytest.mark.parametrize("neighbours", [8, 16])
def test_a_slanting_wall_of_single_cells_has_no_holes(neighbours):
    ground = ~np.eye(8, dtype=bool)
    out, _ = walking_time(np.zeros((8, 8)), 1.0, ground, (0, 1), neighbours=neighbours)
    above = np.triu(np.ones((8, 8), dtype=bool), k=1)
    assert np.isfinite(out[above]).all()
    assert np.isinf(out[~above]).all()


def test_uphill_out_is_slower_than_downhill_back():
    z = np.tile(np.arange(10.0), (3, 1)) * 0.1
    out, back = walking_time(z, 1.0, np.ones((3, 10), dtype=bool), (1, 0))
    assert out[1, 9] == pytest.approx(9 * np.hypot(1, 0) * pace(0.1))
    assert back[1, 9] == pytest.approx(9 * pace(-0.1))


def test_sixteen_directions_come_closer_to_the_straight_line_than_eight():
    level, ground = np.zeros((41, 41)), np.ones((41, 41), dtype=bool)
    straight = np.hypot(*np.indices((41, 41))) * pace(0)
    far = straight > 10
    for neighbours, excess in ((8, 1.083), (16, 1.028)):
        out, _ = walking_time(level, 1.0, ground, START, neighbours=neighbours)
        ratio = (out[far] / straight[far]).max()
        assert excess - 0.006 < ratio < excess


def test_a_long_step_feels_the_ditch_it_crosses():
    ditch = np.zeros((5, 5))
    ditch[:, 2] = -1.0
    ground = np.ones((5, 5), dtype=bool)
    out, _ = walking_time(ditch, 1.0, ground, (2, 0), neighbours=16)
    level, _ = walking_time(0 * ditch, 1.0, ground, (2, 0), neighbours=16)
    assert (out[:, 4] > level[:, 4] + 10).all()


def test_slow_ground_is_walked_round():
    factor = np.ones((7, 7))
    factor[1:6, 3] = 50.0
    out, _ = walking_time(np.zeros((7, 7)), 1.0, np.ones((7, 7), dtype=bool), (3, 0), factor)
    assert 8 * pace(0) < out[3, 6] < 12 * pace(0)


def test_ground_of_unknown_height_is_closed():
    z = np.zeros((4, 4))
    z[:, 2] = np.nan
    out, _ = walking_time(z, 1.0, np.ones((4, 4), dtype=bool), START)
    assert np.isinf(out[:, 2:]).all()


def test_starting_inside_a_wall_is_refused_with_the_nearest_open_cell():
    ground = np.ones((4, 4), dtype=bool)
    ground[START] = False
    with pytest.raises(ValueError, match=r"open ground, got cell \(0, 0\); nearest is \(0, 1\)"):
        walking_time(np.zeros((4, 4)), 1.0, ground, START)


def test_the_doorstep_of_a_house_is_the_nearest_open_cell():
    ground = np.ones((9, 9), dtype=bool)
    ground[2:7, 2:8] = False
    assert nearest_open(ground, (4, 3)) == (4, 1)
    with pytest.raises(ValueError, match="at least one open cell"):
        nearest_open(np.zeros((2, 2), dtype=bool), (0, 0))
