"""The laws of shade: what stands higher, thicker or nearer the sun never gives a place more."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.land import shade
from model.land.covers import Crown, Screen
from model.land.horizon import Relief
from model.land.leaf_season import leaf_share, monthly_transmission
from model.land.shade import Standing, beam_share, direct_hours, like_months, sunlight
from model.land.slope_light import bright_hours
from model.land.sun_patches import (
    evening_hours,
    morning_hours,
    summer_months,
    sun_hours,
    sun_patches,
    winter_months,
)
from model.land.sun_position import sun_position

EYE = np.array([[0.0, 0.0, 2.0]])
LATITUDES = st.sampled_from([52.0, -36.0])
LEAFY = monthly_transmission(0.2, 0.6, leaf_share(52.0))
SLACK = 1e-3  # [h] of single-precision sums over a month

distances = st.floats(-25, 25)
crowns = st.builds(
    lambda x, y, radius, base, depth, through: Crown(
        x, y, radius, base, base + depth, (through,) * 12
    ),
    *(distances, distances, st.floats(0.5, 6), st.floats(0, 4), st.floats(1, 12), st.floats(0, 1)),
)
screens = st.builds(
    lambda x, y, run, rise, top, through: Screen(
        [(x, y), (x + run, y + rise)], top, (through,) * 12
    ),
    *(distances, distances, st.floats(1, 30), distances, st.floats(2.5, 12), st.floats(0, 1)),
)
things = st.lists(crowns | screens, min_size=1, max_size=4)
few = settings(max_examples=25)


def hours(latitude, *standing, eye=EYE):
    walls = [thing for thing in standing if isinstance(thing, Screen)]
    trees = [thing for thing in standing if isinstance(thing, Crown)]
    return direct_hours(eye, Standing(walls, trees), latitude)


def sums(values, months):
    return values[list(months)].sum()


@few
@given(LATITUDES, things, st.floats(0.1, 10))
def test_a_taller_neighbour_never_adds_sun(latitude, standing, growth):
    before = hours(latitude, *standing)
    grown = [replace(standing[0], top=standing[0].top + growth), *standing[1:]]
    assert (hours(latitude, *grown) <= before + SLACK).all()


@few
@given(LATITUDES, things)
def test_taking_a_thing_away_never_takes_sun(latitude, standing):
    assert (hours(latitude, *standing[1:]) >= hours(latitude, *standing) - SLACK).all()


@few
@given(LATITUDES, things, st.floats(0, 1))
def test_a_more_transparent_thing_never_makes_it_darker(latitude, standing, more):
    was = standing[0].transmission[0]
    clearer = replace(standing[0], transmission=(was + more * (1 - was),) * 12)
    assert (hours(latitude, clearer, *standing[1:]) >= hours(latitude, *standing) - SLACK).all()


@few
@given(LATITUDES, things)
def test_hours_are_never_below_none_nor_above_the_open_skys(latitude, standing):
    some = hours(latitude, *standing)[:, 0]
    assert (some >= -SLACK).all()
    assert (some <= sun_hours(sun_patches(latitude)).sum(axis=1) + SLACK).all()


@few
@given(things, st.integers(0, 364))
def test_nothing_on_the_pole_side_takes_noon_sun(standing, day):
    noon = np.datetime64("2025-01-01T12:00") + np.timedelta64(day, "D")
    for latitude, pole in ((52.0, 1), (-36.0, -1)):
        moved = []
        for thing in standing:
            if isinstance(thing, Crown):
                moved.append(replace(thing, y=pole * (abs(thing.y) + thing.radius + 0.5)))
            else:
                corners = np.abs(thing.corners) * (1, pole) + (0, pole * 0.5)
                moved.append(replace(thing, corners=corners))
        walls = [thing for thing in moved if isinstance(thing, Screen)]
        trees = [thing for thing in moved if isinstance(thing, Crown)]
        elevation, bearing = sun_position(noon, latitude, 0)
        # Noon by the clock is up to a quarter of an hour from the sun's: look along the meridian.
        toward = 180.0 if latitude > 0 else 0.0
        assert abs((bearing - toward + 180) % 360 - 180) < 15
        share = beam_share(EYE, Standing(walls, trees), float(elevation), toward, 0)
        assert share[0] == 1


def wood(side, latitude=52.0):
    """A broadleaved wood's edge 6 m off to the north (1) or the south (-1)."""
    near, far = side * 6, side * 60
    edge = [(-60, near), (60, near), (60, far), (-60, far), (-60, near)]
    return Screen(edge, 18, monthly_transmission(0.1, 0.4, leaf_share(latitude)))


# Common practice, no source: trade truth that any grower would state.
@pytest.mark.parametrize(("latitude", "pole", "left"), [(52.0, 1, 0.4), (-36.0, -1, 0.7)])
def test_a_wood_on_the_pole_side_costs_hardly_any_growing_season_sun(latitude, pole, left):
    # Nearer the equator the summer sun stands over the wood's top: there it costs less.
    summer, winter = summer_months(latitude), winter_months(latitude)
    woods = ([], [wood(pole, latitude)], [wood(-pole, latitude)])
    open_, behind, before = (
        sunlight(EYE, Standing(standing), latitude, [bright_hours])[0] for standing in woods
    )
    assert sums(behind, summer) > 0.95 * sums(open_, summer)
    assert sums(before, summer) < left * sums(open_, summer)
    assert sums(behind, winter) > 0.99 * sums(open_, winter)


def test_counted_by_the_hour_a_wood_on_the_pole_side_costs_the_dim_ends_of_summer_days():
    # Astronomy: at latitude 52 the midsummer sun is north of east and west for 7 hours of 16.
    june = sums(hours(52.0, wood(1)), (5,)) / sums(hours(52.0), (5,))
    assert june == pytest.approx(1 - 7.2 / 16.7 * 0.9, abs=0.1)


# Common practice, no source: trade truth that any grower would state.
def test_a_low_western_horizon_gives_evening_sun_in_autumn_that_a_wall_takes_away():
    wall = Standing([Screen([(-12, -60), (-12, 60)], 6)])
    with_wall = sunlight(EYE, wall, 52.0, [evening_hours, morning_hours])[:, 8:10].sum(axis=(1, 2))
    open_west = sunlight(EYE, Standing(), 52.0, [evening_hours, morning_hours])[:, 8:10].sum(
        axis=(1, 2)
    )
    assert with_wall[0] < 0.75 * open_west[0]
    assert with_wall[1] == pytest.approx(open_west[1])


def test_a_bare_crown_lets_winter_light_through():
    row = [Crown(x, -8, 3, 1, 10, LEAFY) for x in range(-30, 31, 5)]
    evergreen = [replace(tree, transmission=(0.2,) * 12) for tree in row]
    winter, summer = (11, 0), (5, 6)
    assert sums(hours(52.0, *row), winter) > 1.5 * sums(hours(52.0, *evergreen), winter)
    assert sums(hours(52.0, *row), summer) == pytest.approx(
        sums(hours(52.0, *evergreen), summer), rel=1e-5
    )


def test_two_crowns_in_line_let_through_the_product():
    trees = Standing([], [Crown(0, -d, 3, 0, 9, (0.5,) * 12) for d in (8, 16)])
    assert beam_share(EYE, trees, 15, 180, 0)[0] == 0.25


def test_a_building_is_dark_inside_and_its_roof_is_open():
    box = Screen([(-5, -5), (5, -5), (5, 5), (-5, 5), (-5, -5)], 4)
    assert hours(52.0, box).sum() < 1
    roof = np.array([[0.0, 0.0, 4.1]])
    assert hours(52.0, box, eye=roof).sum() == pytest.approx(hours(52.0).sum())


def test_a_hill_to_the_sun_side_takes_sun():
    axis = np.arange(-60, 61.0, 3)
    z = np.where(axis[:, None] < -20, 15.0, 0.0) * np.ones(len(axis))
    south = direct_hours(EYE, Standing(relief=Relief(z, axis, axis)), 52.0)
    north = direct_hours(EYE, Standing(relief=Relief(z[::-1], axis, axis)), 52.0)
    assert sums(south, (11,)) < 0.4 * sums(north, (11,))
    assert sums(north, (11,)) == pytest.approx(sums(hours(52.0), (11,)), rel=0.01)


def test_the_answer_does_not_hang_on_how_the_places_are_cut(monkeypatch):
    eyes = np.random.default_rng(1).uniform((-30, -30, 1), (30, 30, 3), (40, 3))
    standing = Standing([wood(1)], [Crown(0, 0, 3, 1, 9, LEAFY)])
    whole = direct_hours(eyes, standing, 52.0)
    monkeypatch.setattr(shade, "CHUNK", 7)
    assert direct_hours(eyes, standing, 52.0) == pytest.approx(whole, rel=1e-5)


def test_a_place_whose_height_is_not_known_has_no_known_sun():
    eyes = np.array([[0, 0, 2.0], [1, 1, np.nan]])
    some = direct_hours(eyes, Standing([], [Crown(0, -5, 2, 1, 5)]), 52.0)
    assert np.isfinite(some[:, 0]).all()
    assert np.isnan(some[:, 1]).all()


def test_months_in_which_everything_is_alike_are_taken_together():
    standing = Standing([wood(1)], [Crown(0, 0, 3, 1, 9, LEAFY)])
    assert like_months(standing) == [(0, 1, 2, 10, 11), (3,), (4, 5, 6, 7, 8, 9)]
    assert like_months(Standing()) == [tuple(range(12))]


@pytest.mark.parametrize("latitude", [0.0, 69.0, -89.0])
def test_the_whole_earth_has_an_answer(latitude):
    some = hours(latitude, Crown(3, 3, 2, 1, 6, LEAFY))
    assert np.isfinite(some).all()
    assert some.sum() > 3000
