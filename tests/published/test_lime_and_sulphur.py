"""Lime and sulphur against published tables."""

import pytest

from model.land.acidity import lime_need, sulphur_need

pytestmark = pytest.mark.published

# Ground limestone [t/ha] for arable land with a target of 6.7, a published farm advice table; it
# is 6.0 t/ha for each unit, the AHDB (RB209) factor of light soils to 20 cm.
ARABLE = {6.4: 1.8, 6.2: 3.0, 6.0: 4.2, 5.8: 5.4, 5.5: 7.2, 5.4: 7.8}


@pytest.mark.parametrize(("ph", "tonnes"), ARABLE.items())
def test_lime_for_arable_land_rb209(ph, tonnes):
    assert 10 * lime_need(ph - 6.7, "loamy sand") == pytest.approx(tonnes)


def test_sulphur_for_one_unit_rhs():
    # Royal Horticultural Society, Acidifying soil: from 7.0-7.5 to 6.0-6.5 in the top 15 cm 135 to
    # 270 g/m2, the lower figure on sand and the higher on clay.
    assert 1000 * sulphur_need(1.0, ["sand", "clay"]) == pytest.approx([135, 270])
