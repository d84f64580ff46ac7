"""Killing temperatures of blossom against the tables of Washington State University.

10 % and 90 % kill after half an hour [degrees Fahrenheit]: WSU bulletins EB0913, EB0978, EB1128,
EB0914 and EB1240, as reprinted by Penn State, Utah State and Michigan State (Longstroth).
"""

import numpy as np
import pytest

from model.land.blossom_frost import Stages, damage_chance, killing_temperature

pytestmark = pytest.mark.published

# Stage after stage; the days from full bloom are common practice, no source.
DAYS = np.array([-42, -35, -24, -14, -9, -4, 0])
TEN = {
    "apple": (15, 18, 23, 27, 28, 28, 28),
    "pear": (15, 20, 24, 25, 26, 27, 28),
    "european plum": (14, 17, 20, 24, 26, 27, 28),
    "sweet cherry": (17, 22, 25, 26, 27, 27, 28),
}
NINETY = {
    "apple": (2, 10, 15, 21, 24, 25, 25),
    "pear": (0, 6, 15, 19, 22, 23, 24),
    "european plum": (0, 3, 7, 16, 22, 23, 23),
    "sweet cherry": (5, 9, 14, 17, 21, 24, 25),
}


def celsius(fahrenheit):
    return (np.array(fahrenheit) - 32) / 1.8


def stages(table, species):
    return Stages(DAYS, celsius(table[species]), end=28)


@pytest.mark.parametrize("species", TEN)
def test_each_stage_has_its_own_limit_and_it_only_rises(species):
    for table in (TEN, NINETY):
        limits = killing_temperature(stages(table, species), DAYS)
        assert limits == pytest.approx(celsius(table[species]))
        assert (np.diff(limits) >= 0).all()


@pytest.mark.parametrize("species", TEN)
def test_nine_in_ten_die_at_a_lower_temperature_than_one_in_ten(species):
    days = np.arange(-42, 29)
    ten, ninety = (killing_temperature(stages(table, species), days) for table in (TEN, NINETY))
    assert (ninety < ten).all()


def test_apple_in_full_bloom_loses_a_tenth_at_minus_two_point_two_and_most_at_minus_four():
    night = np.full((1, 100), 5.0)
    for lowest, tenth, most in ((-2.0, 0, 0), (-2.5, 1, 0), (-4.0, 1, 1)):
        night[0, 60] = lowest
        assert damage_chance(night, [60.0], stages(TEN, "apple")) == tenth
        assert damage_chance(night, [60.0], stages(NINETY, "apple")) == most
