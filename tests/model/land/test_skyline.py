"""The skyline: ground, trees and walls hide what is behind them, never what is before."""

import numpy as np
import pytest

from model.land.skyline import NOTHING, skyline
from model.land.window import Window

AXIS = np.arange(0, 121.0)
LEVEL = np.zeros((121, 121))
WINDOW = Window(60, 20, eye=1.6, bearing=0, width=60, low=-5, high=20, range=90)


def rising(skyline_, offset=0.1):
    """Hidden angle straight ahead at every metre."""
    return skyline_.before(offset, np.arange(1, 90.0))


def test_on_level_ground_only_the_ground_hides_and_never_above_the_eye():
    angles = rising(skyline(WINDOW, LEVEL, AXIS, AXIS))
    assert (np.diff(angles) >= 0).all()
    assert angles.max() < 0


@pytest.mark.parametrize(
    "things",
    [{"walls": [(40, 50, 80, 50, 4)]}, {"crowns": [(60, 50, 5, 0, 4)]}],
    ids=["wall", "tree"],
)
def test_a_thing_hides_what_is_behind_it_and_not_what_is_before_it(things):
    angles = rising(skyline(WINDOW, LEVEL, AXIS, AXIS, **things))
    expected = np.degrees(np.arctan2(4 - 1.6, 30))
    assert angles[:30].max() < 0  # to 30 m, where it stands itself
    assert angles[32:] == pytest.approx(np.full(57, expected), abs=0.05)


def test_a_tree_over_the_eye_hides_nothing():
    over = skyline(WINDOW, LEVEL, AXIS, AXIS, crowns=[(61, 22, 6, 0, 9)])
    assert rising(over).max() < 0


def test_things_beside_the_line_of_sight_hide_nothing():
    beside = skyline(
        WINDOW, LEVEL, AXIS, AXIS, crowns=[(75, 50, 5, 0, 9)], walls=[(65, 50, 80, 50, 9)]
    )
    assert rising(beside).max() < 0


def test_what_is_behind_the_eye_hides_nothing():
    behind = skyline(
        WINDOW, LEVEL, AXIS, AXIS, crowns=[(60, 10, 3, 0, 9)], walls=[(0, 9, 99, 9, 9)]
    )
    assert rising(behind).max() < 0


def test_a_hill_hides_the_hollow_behind_it():
    z = LEVEL + 5 * np.exp(-(((AXIS - 50) / 6) ** 2))[:, None]
    angles = rising(skyline(WINDOW, z, AXIS, AXIS))
    assert angles[-1] == pytest.approx(np.degrees(np.arctan2(3.4, 30)), abs=0.3)


def test_the_frame_the_eye_looks_out_of_hides_nothing():
    frame = skyline(WINDOW, LEVEL, AXIS, AXIS, walls=[(55, 20.4, 65, 20.4, 6)])
    assert rising(frame).max() < 0


def test_ground_beyond_the_grid_or_unknown_hides_nothing():
    z = np.where(AXIS[:, None] > 15, np.nan, LEVEL)
    assert (rising(skyline(WINDOW, z, AXIS, AXIS)) == NOTHING).all()


def test_row_zero_is_the_south():
    z = np.where(AXIS[:, None] > 60, 8.0, LEVEL)  # a step up in the north
    south = Window(60, 50, 1.6, bearing=180, width=60, low=-5, high=20, range=40)
    north = Window(60, 50, 1.6, bearing=0, width=60, low=-5, high=20, range=40)
    assert skyline(south, z, AXIS, AXIS).before(0, 39) < 0
    assert skyline(north, z, AXIS, AXIS).before(0, 39) > 20
