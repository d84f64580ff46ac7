"""The heat needed to ripen, worked out again from the Anderson (1986) curve by plain arithmetic.

Anderson, Richardson and Kesner (1986), Validation of chill unit and flower bud phenology models
for Montmorency sour cherry, Acta Horticulturae 184: growing degree hours rise by a cosine from
4 C to 25 C and fall to nothing at 36 C. The reference year is a lowland maritime one (common
practice, no source); the means of July are from memory of orchard handbooks.
"""

from calendar import monthrange
from math import cos, pi, radians, sin

import pytest

from model.trees import read_catalogue

pytestmark = pytest.mark.published

CATALOGUE = read_catalogue()


def degree_hours(temperature):
    """Anderson's curve in its printed form, one hour."""
    if temperature <= 4 or temperature >= 36:
        return 0.0
    if temperature <= 25:
        return 21 / 2 * (1 + cos(pi + pi * (temperature - 4) / 21))
    return 21 * (1 + cos(pi / 2 + pi / 2 * (temperature - 25) / 11))


def season(july):
    """Degree hours of April to October where July's mean is this."""
    total = 0.0
    for month in range(4, 11):
        mean = july - 6.2 * (1 - cos(2 * pi * (month - 7) / 12))
        day = sum(degree_hours(mean + 4.5 * sin(radians(15 * hour))) for hour in range(24))
        total += day * monthrange(2001, month)[1]
    return total


@pytest.mark.parametrize("species", CATALOGUE.species())
def test_the_heat_need_of_a_species_is_that_of_its_july(species):
    july = CATALOGUE.value("species", species, "july_temperature").number

    heat = CATALOGUE.value("species", species, "heat_need").number

    assert heat == pytest.approx(season(july), rel=0.005)


@pytest.mark.parametrize("cultivar", ["Granny Smith", "Braeburn"])
def test_a_late_cultivar_needs_the_heat_of_its_own_july(cultivar):
    july = CATALOGUE.value("cultivars", ("apple", cultivar), "july_temperature").number

    heat = CATALOGUE.value("cultivars", ("apple", cultivar), "heat_need").number

    assert heat == pytest.approx(season(july), rel=0.005)


def test_the_curve_has_its_printed_cardinal_values():
    # 0 at 4 C, half the full rate midway at 14.5 C, the full 21 at 25 C, 0 at 36 C.
    assert degree_hours(4) == 0
    assert degree_hours(14.5) == pytest.approx(10.5)
    assert degree_hours(25) == pytest.approx(21)
    assert degree_hours(36) == 0
