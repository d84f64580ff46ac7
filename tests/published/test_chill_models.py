"""Chill by three models against published tables and an independent implementation's figures."""

from pathlib import Path

import numpy as np
import pvlib
import pytest

from model.land.chill import chill_hours, chill_portions, utah_units
from model.land.heat import growing_degree_hours

pytestmark = pytest.mark.published

DAY = np.arange(24)

# Figures of the R package chillR 0.77 (Luedeling) in R 4.2.2, constants of the Dynamic Model from
# Erez et al. (1990), Acta Horticulturae 276:165. Both public ways of stepping agree on these.
CONSTANT = {
    -2: (0.160089, 0.653127),
    0: (3.327314, 12.477657),
    2: (18.719693, 64.394576),
    4: (21.245762, 72.838253),
    6: (24.432564, 83.062513),
    8: (24.401032, 83.372018),
    10: (23.313028, 78.048016),
    12: (18.001112, 61.003768),
    13: (0.0, 0.0),
    16: (0.0, 0.0),
}

# The same, sixty days of two temperatures: hours of each, then chillR's figure and that of a second
# implementation which takes the rates of the same hour, as ours does.
MIXED = [
    ((6.0, 16), (18.0, 8), 29.4680, 29.4608),
    ((6.0, 16), (24.0, 8), 0.0, 0.0),
    ((6.0, 16), (13.0, 8), 45.6584, 45.6504),
]


@pytest.mark.parametrize(("temperature", "portions"), CONSTANT.items())
def test_portions_at_constant_temperature_erez1990(temperature, portions):
    season = np.full(2400, float(temperature))
    assert chill_portions(season[:720]) == pytest.approx(portions[0], abs=1e-4)
    assert chill_portions(season) == pytest.approx(portions[1], abs=1e-4)


@pytest.mark.parametrize(
    ("temperature", "hours"),
    [(-2, 35.909), (0, 33.068), (2, 30.797), (4, 29.123), (6, 28.155), (8, 28.189), (10, 30.145)],
)
def test_first_portion_comes_when_the_closed_form_says(temperature, hours):
    # The intermediate's differential equation solved by hand: ln(xs / (xs - 1)) / k1,
    # Fishman, Erez & Couvillon (1987), J. theor. Biol. 124:473.
    fixed = chill_portions(np.full(100, float(temperature)), cumulative=True)
    assert np.argmax(fixed > 0) == np.ceil(hours)


def test_no_portion_completes_above_the_temperature_where_the_balance_is_one():
    # Root of the balance at 12.99585 C, from the same equations.
    assert chill_portions(np.full(5000, 12.95)) > 0
    assert chill_portions(np.full(5000, 13.0)) == 0


@pytest.mark.parametrize(("cold", "warm", "chillr", "same_hour"), MIXED)
def test_warm_days_undo_chill_erez1990(cold, warm, chillr, same_hour):
    season = np.tile(np.repeat([cold[0], warm[0]], [cold[1], warm[1]]), 60)
    assert chill_portions(season) == pytest.approx(same_hour, abs=1e-4)
    assert chill_portions(season) == pytest.approx(chillr, abs=0.1)  # the two ways of stepping


def test_a_swinging_season_by_all_models():
    # chillR 0.77 in R 4.2.2; portions also by a second implementation with same-hour rates.
    season = np.tile(6 + 5 * np.sin(2 * np.pi * (DAY - 9) / 24), 90)
    assert chill_portions(season) == pytest.approx(64.6482, abs=1e-4)
    assert utah_units(season) == 1485
    assert chill_hours(season) == 1170
    assert growing_degree_hours(season) == pytest.approx(3505.658, abs=1e-3)


@pytest.mark.parametrize(
    ("temperature", "worth"),
    [
        (1.4, 0), (1.41, 0.5), (2.4, 0.5), (2.41, 1), (9.1, 1), (9.11, 0.5), (12.4, 0.5),
        (12.41, 0), (15.9, 0), (15.91, -0.5), (18.0, -0.5), (18.01, -1),
    ],
)  # fmt: skip
def test_utah_worth_of_an_hour_richardson1974(temperature, worth):
    # Richardson, Seeley & Walker (1974), HortScience 9:331, table; bounds in degrees C.
    assert utah_units([temperature]) == worth


@pytest.mark.parametrize(("temperature", "hours"), [(-0.1, 0), (0, 1), (7.2, 1), (7.21, 0)])
def test_chill_hours_weinberger1950(temperature, hours):
    # Weinberger (1950), Proc. Am. Soc. Hort. Sci. 56:122: below 45 F; the floor at 32 F is usual.
    assert chill_hours([temperature]) == hours


@pytest.mark.parametrize(
    ("station", "hours", "utah", "chillr", "same_hour", "heat"),
    [
        ("723170TYA.CSV", 1364, 1209.5, 91.3364, 91.3364, 85969.32),
        ("703165TY.csv", 2844, 2314.0, 110.1429, 110.1035, 14058.96),
    ],
)
def test_chill_and_heat_of_real_hourly_weather(station, hours, utah, chillr, same_hour, heat):
    # Typical years of Greensboro (North Carolina) and Sand Point (Alaska), NREL TMY3, shipped with
    # pvlib; figures by chillR 0.77 and a second implementation. October to December then January
    # to March, by the file's own stamps.
    path = Path(pvlib.__file__).parent / "data" / station
    weather, _ = pvlib.iotools.read_tmy3(path, coerce_year=1990, map_variables=True)
    temperature, month = weather["temp_air"].to_numpy(float), weather.index.month
    winter = np.concatenate([temperature[month >= 10], temperature[month <= 3]])
    assert chill_hours(winter) == hours
    assert utah_units(winter) == utah
    assert chill_portions(winter) == pytest.approx(same_hour, abs=1e-4)
    assert chill_portions(winter) == pytest.approx(chillr, abs=0.1)
    assert growing_degree_hours(temperature) == pytest.approx(heat, abs=0.01)
