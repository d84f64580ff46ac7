"""Structure of the drawn weather against the models it follows."""

import numpy as np
import pytest

from model.land.weather_series import DAYS_IN_MONTH, Normals, by_month, daily_series

pytestmark = pytest.mark.published

RAIN_DAYS = np.full(12, 12.0)


def lowland_series():
    """A hundred years with the same swings in every month, so that residuals can be compared."""
    twelve = np.ones(12)
    normals = Normals(2 * twelve, 20 * twelve, 3 * twelve, 3 * twelve, 60 * twelve, RAIN_DAYS)
    return daily_series(normals, 100, seed=1)


def correlation(one, other):
    return np.corrcoef(one, other)[0, 1]


def test_residuals_depend_on_the_day_before_richardson1981():
    # Richardson (1981), Water Resources Research 17:182, and Richardson & Wright (1984), WGEN:
    # mean correlations over the United States of highest (0.621) and lowest temperature (0.674)
    # with the day before, of the two on one day (0.633). The figures are from memory; they also
    # follow from the matrices A and B of the report, which were seen.
    series = lowland_series()
    high, low = series.tmax.ravel(), series.tmin.ravel()
    assert correlation(high[1:], high[:-1]) == pytest.approx(0.621, abs=0.02)
    assert correlation(low[1:], low[:-1]) == pytest.approx(0.674, abs=0.02)
    assert correlation(high, low) == pytest.approx(0.633, abs=0.02)
    assert high.std() == pytest.approx(3, rel=0.02)


def test_wet_days_follow_wet_days_geng1986():
    # Geng, Penning de Vries & Supit (1986), Agricultural and Forest Meteorology 36:363: after a
    # dry day rain comes with 0.75 of the wet days' share, after a wet day with 0.25 more.
    wet = (lowland_series().rain > 0).ravel()
    share = np.tile(np.repeat(RAIN_DAYS / DAYS_IN_MONTH, DAYS_IN_MONTH), 100)[1:]
    after_wet = wet[1:][wet[:-1]].mean() - share[wet[:-1]].mean()
    after_dry = wet[1:][~wet[:-1]].mean() - share[~wet[:-1]].mean()
    mean_share = share.mean()
    assert after_dry == pytest.approx(0.75 * mean_share - mean_share, abs=0.015)
    assert after_wet == pytest.approx(0.25 + 0.75 * mean_share - mean_share, abs=0.015)


def test_amounts_of_rain_have_the_gamma_laws_spread_geng1986():
    # The same paper: scale = 1.83 * mean - 2.16 mm, so that variance = mean * scale.
    series = lowland_series()
    january = series.rain[:, :31]
    amounts = january[january > 0]
    mean = amounts.mean()
    assert amounts.var() == pytest.approx(mean * (1.83 * mean - 2.16), rel=0.1)


def test_a_hundred_years_keep_their_normals():
    # An invented lowland station. How close is close is common practice, no source: 0.3 K, 5 % of
    # the rain, one wet day a month.
    normals = Normals(
        tmin=[3, 3, 4, 6, 9, 12, 14, 14, 12, 9, 6, 3],
        tmax=[8, 9, 12, 15, 18, 22, 24, 24, 20, 16, 12, 9],
        tmin_sd=[4.0] * 12,
        tmax_sd=[3.5] * 12,
        rain=[59, 45, 39, 42, 46, 47, 46, 53, 50, 65, 67, 57],
        rain_days=[12, 10, 9, 9, 8, 8, 8, 8, 8, 11, 11, 11],
        year_sd=[1.5] * 12,
    )
    series = daily_series(normals, 100, seed=7)
    assert by_month(series.tmin).mean(axis=0) == pytest.approx(normals.tmin, abs=0.3)
    assert by_month(series.tmax).mean(axis=0) == pytest.approx(normals.tmax, abs=0.3)
    monthly_rain = by_month(series.rain).mean(axis=0) * DAYS_IN_MONTH
    assert monthly_rain == pytest.approx(normals.rain, rel=0.05)
    wet_days = by_month(series.rain > 0).mean(axis=0) * DAYS_IN_MONTH
    assert wet_days == pytest.approx(normals.rain_days, abs=1)
    month_means = by_month((series.tmin + series.tmax) / 2)
    assert month_means.std(axis=0) == pytest.approx(normals.year_sd, rel=0.25)
