"""Seasons: lengths, hemispheres, and winters that cross the new year."""

import numpy as np

from model.land.seasons import by_season, dormant_season, growing_season

YEARS = np.arange(1, 366) + 1000 * np.arange(1, 5)[:, None]


def test_the_south_has_its_seasons_half_a_year_later():
    assert dormant_season(52)[[0, -1]].tolist() == [274, 90]
    assert dormant_season(-35)[[0, -1]].tolist() == [91, 273]
    assert growing_season(52)[[0, -1]].tolist() == [91, 304]
    assert growing_season(-35)[[0, -1]].tolist() == [274, 120]


def test_seasons_last_half_a_year_and_seven_months():
    assert [len(dormant_season(latitude)) for latitude in (50, -50)] == [182, 183]
    assert [len(growing_season(latitude)) for latitude in (50, -50)] == [214, 212]


def test_a_winter_joins_one_years_end_to_the_next_years_start():
    winters = by_season(YEARS, dormant_season(52))
    assert winters.shape == (3, 182)
    assert winters[0, [0, 91, 92, -1]].tolist() == [1274, 1365, 2001, 2090]


def test_a_summer_stays_within_its_year():
    summers = by_season(YEARS, growing_season(52))
    assert summers.shape == (4, 214)
    assert summers[3, [0, -1]].tolist() == [4091, 4304]


def test_a_typical_year_follows_itself():
    winter = by_season(YEARS[:1], dormant_season(52))
    assert winter[0, [0, -1]].tolist() == [1274, 1090]


def test_hours_stay_with_their_days():
    hourly = np.repeat(YEARS[:, :, None], 24, axis=2)
    assert by_season(hourly, dormant_season(52)).shape == (3, 182, 24)
