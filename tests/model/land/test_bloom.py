"""Flowering date: calibrated where it is known, earlier with warmth, later with more need."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.land import reference_climate, seasons
from model.land.bloom import (
    SEASON_DAYS,
    first_stirring,
    flowering_season,
    full_bloom,
    heat_need,
    heat_until,
    progress,
)

MAY_DAY = 212  # counted from 1 October
FEBRUARY = first_stirring(52)


def reference_hours():
    hours = seasons.by_season(reference_climate.reference_hours(), flowering_season(52))
    return hours.reshape(len(hours), -1).T


HOURS = reference_hours()
REFERENCE = progress(HOURS)


@given(chill=st.floats(10, 80), day=st.integers(170, 270), stirring=st.sampled_from([0, FEBRUARY]))
def test_the_known_day_is_reproduced_where_it_is_known(chill, day, stirring):
    bloom = full_bloom(REFERENCE, chill, heat_need(REFERENCE, chill, day, stirring), stirring)
    # A cold spell just before the day brings no heat: the bloom may count from its start.
    assert day - 5 <= np.median(bloom) <= day + 0.05


@given(chill=st.floats(10, 80), heat=st.floats(500, 9000), more=st.floats(0, 3000))
def test_more_need_never_flowers_earlier(chill, heat, more):
    first = full_bloom(REFERENCE, chill, heat)
    assert (full_bloom(REFERENCE, chill, heat + more) >= first).all()
    assert (full_bloom(REFERENCE, chill + 10, heat) >= first).all()


def test_a_warmer_place_flowers_earlier_by_days_for_a_kelvin():
    # Published spans are 4 to 8 days a kelvin (from memory); one year's chance is added.
    warmer = progress(HOURS[..., None] + np.array([0.0, 1.0]))
    for chill, known in ((50, MAY_DAY), (55, 194)):
        heat = heat_need(REFERENCE, chill, known, FEBRUARY)
        usual, early = np.median(full_bloom(warmer, chill, heat, FEBRUARY), axis=0)
        assert 4 <= usual - early <= 10


def test_the_same_need_spreads_over_years_as_orchard_records_do():
    # Full flower of one plum fell on 28 April 2013 and 31 March 2022 at Brogdale (collection's
    # records): four weeks between a late and an early year.
    plum = 103 - 274 + 365
    bloom = full_bloom(REFERENCE, 55, heat_need(REFERENCE, 55, plum, FEBRUARY), FEBRUARY)
    late, early = np.quantile(bloom, [0.95, 0.05])
    assert 14 <= late - early <= 50


def test_buds_do_not_stir_before_the_light_returns():
    mild = progress(np.full((SEASON_DAYS * 24, 1), 9.0))
    assert full_bloom(mild, 30, 500) < FEBRUARY
    assert full_bloom(mild, 30, 500, FEBRUARY) > FEBRUARY
    assert first_stirring(30) == first_stirring(-30) == 0
    assert first_stirring(60) > FEBRUARY


def test_a_winter_without_cold_brings_no_bloom():
    tropical = progress(np.full((SEASON_DAYS * 24, 2), 24.0))
    assert np.isnan(full_bloom(tropical, 40, 3000)).all()


def test_a_summer_without_warmth_brings_no_bloom():
    cold = progress(np.full((SEASON_DAYS * 24, 1), 3.0))
    assert np.isnan(full_bloom(cold, 40, 3000)).all()


def test_a_chill_need_that_does_not_fit_the_known_day_is_refused():
    with pytest.raises(ValueError, match="chill_need: found 90 portions"):
        heat_need(REFERENCE, 90, known_day=60)


def test_heat_counts_from_the_end_of_rest():
    hours = np.full((SEASON_DAYS * 24, 1), 6.0)
    hours[150 * 24 :] = 25.0
    gathered = progress(hours)
    later = heat_until(gathered, 50, 160) - heat_until(gathered, 50, 155)
    assert later == pytest.approx([5 * 24 * 21])
    assert full_bloom(gathered, 50, heat_until(gathered, 50, 160)[0]) == pytest.approx([160])


@pytest.mark.parametrize(("latitude", "first", "last"), [(52, 274, 208), (-35, 91, 25)])
def test_seasons_turn_south_of_the_equator(latitude, first, last):
    days = flowering_season(latitude)
    assert (days[0], days[-1], len(days)) == (first, last, SEASON_DAYS)


def test_a_southern_orchard_flowers_half_a_year_later():
    year = reference_climate.reference_hours()
    turned = np.roll(year, 182, axis=1)
    hours = seasons.by_season(turned, flowering_season(-52))
    bloom = full_bloom(progress(hours.reshape(len(hours), -1).T), 60, 6000)
    north = np.median(full_bloom(REFERENCE, 60, 6000))
    assert np.median(bloom) == pytest.approx(north, abs=4)
