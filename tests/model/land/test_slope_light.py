"""Ground that leans to the sun has more of its light; level ground has what the sky gives."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.land.covers import Screen
from model.land.leaf_season import DAYS
from model.land.shade import Standing
from model.land.slope_light import (
    bright_hours,
    incidence,
    level_light,
    normals,
    slope_light,
)
from model.land.sun_patches import sun_hours, sun_patches

EYES = np.array([[0.0, 0.0, 0.0]] * 4)
OPEN = Standing()
FACING = np.array([0.0, 90.0, 180.0, 270.0])


def light(slope, aspect, latitude=52.0, standing=OPEN):
    count = len(np.atleast_1d(aspect))
    return slope_light(EYES[:count], np.full(count, slope), aspect, standing, latitude)


def test_level_ground_has_the_level_light_whatever_its_aspect():
    level = light(0.0, np.array([np.nan, 0, 90, 180]))
    beam, diffuse = level_light(52.0)
    assert level.beam == pytest.approx(np.tile(beam[:, None], 4), rel=1e-4)
    assert level.sky == pytest.approx(np.tile(diffuse[:, None], 4))
    assert (level.ground == 0).all()


@pytest.mark.parametrize(("latitude", "sunny", "shady"), [(52.0, 2, 0), (-36.0, 0, 2)])
def test_a_slope_to_the_sun_gains_most_in_winter(latitude, sunny, shady):
    total = light(0.3, FACING, latitude).total
    level = light(0.0, FACING, latitude).total[:, 0]
    midwinter, midsummer = (11, 5) if latitude > 0 else (5, 11)
    gain = total[:, sunny] / level
    assert gain[midwinter] > 1.3 > gain[midsummer]
    assert (total[:, sunny] > total[:, shady]).all()
    assert total[:, 1] == pytest.approx(total[:, 3], rel=0.02)  # east as west


@given(st.floats(0, 2), st.floats(0, 360), st.floats(0, 90), st.floats(0, 360))
def test_no_ground_takes_more_than_the_beam_or_less_than_nothing(slope, aspect, height, bearing):
    share = incidence(normals([slope], [aspect]), [height], [bearing])[0, 0]
    assert 0 <= share <= 1 + 1e-12


def test_ground_square_to_the_beam_takes_it_whole():
    facing = normals([np.tan(np.radians(60))], [180.0])
    assert incidence(facing, [30.0], [180.0])[0, 0] == pytest.approx(1)


def test_a_wall_takes_beam_from_the_slope_behind_it():
    wall = Standing([Screen([(-99, -3), (99, -3)], 4)])
    open_, behind = light(0.1, FACING[:1]), light(0.1, FACING[:1], standing=wall)
    assert (behind.beam <= open_.beam + 1e-6).all()
    assert behind.beam[11, 0] < 0.05 * open_.beam[11, 0]


def test_bright_hours_are_the_levels_beam_over_a_thousand_watts():
    beam, _ = level_light(52.0)
    hours = bright_hours(sun_patches(52.0)).sum(axis=1)
    assert hours == pytest.approx(beam / 3.6 * DAYS)
    assert (hours < sun_hours(sun_patches(52.0)).sum(axis=1)).all()
