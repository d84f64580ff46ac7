"""The root zone's water against FAO-56 (Allen, Pereira, Raes & Smith 1998).

Formulas and coefficients of tables 11, 12 and 22 as in the public package pyfao56.
"""

import numpy as np
import pytest

from model.land import water_balance as balance

pytestmark = pytest.mark.published


def test_thirst_of_a_metre_of_soil_fao56_equations82_to84():
    # Field capacity 0.25, wilting point 0.12, roots 1 m deep: 130 mm, 65 of them freely taken.
    available = 1000 * (0.25 - 0.12) * 1.0
    lacking = [0, 65, 100, 130]
    assert balance.stress(lacking, available, 0.5) == pytest.approx([1, 1, 30 / 65, 0])


def test_share_freely_taken_fao56_table22():
    assert balance.freely_taken([3, 5, 8, 40, -10]) == pytest.approx([0.58, 0.5, 0.38, 0.1, 0.8])


def test_crop_coefficients_fao56_tables11_and12():
    # Half-way through the development stage an apple on bare soil stands half-way, at 0.70.
    apple = balance.crop_coefficient(balance.POME_BARE, start=60)
    assert apple[[60, 80, 115, 150, 240, 270]] == pytest.approx([0.45, 0.45, 0.7, 0.95, 0.95, 0.7])
    plum = balance.crop_coefficient(balance.STONE_GRASS, start=60)
    assert plum[[60, 150, 270]] == pytest.approx([0.50, 1.15, 0.90])


def test_a_dry_spell_by_hand_fao56_equation85():
    # 100 mm of water, 5 mm a day: half is taken freely, then use falls with what is left.
    days = balance.root_zone(np.zeros((1, 14)), np.full((1, 14), 5.0), np.ones(14), 100.0)
    by_hand, lacking = [], 0.0
    for _ in range(14):
        lacking += 5 * min(1, (100 - lacking) / (0.5 * 100))
        by_hand.append(lacking)
    assert days.depletion[0] == pytest.approx(by_hand)
    assert by_hand[9] == 50
    assert by_hand[11] == pytest.approx(59.5)
