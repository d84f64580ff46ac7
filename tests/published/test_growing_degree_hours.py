"""Growing degree hours against Anderson, Richardson & Kesner (1986)."""

import pytest

from model.land.heat import degree_hours

pytestmark = pytest.mark.published

# Figures of the R package chillR 0.77 for the asymmetric curve of Anderson, Richardson & Kesner
# (1986), Acta Horticulturae 184:71, with base 4, optimum 25, critical 36.
WORTH = {
    3.9: 0.0, 4: 0.0, 10: 3.953357, 14.5: 10.5, 15: 11.284666, 20: 18.197045, 25: 21.0,
    28: 12.276285, 30: 7.247925, 30.5: 6.150758, 33: 1.897728, 36: 0.0, 36.1: 0.0,
}  # fmt: skip


@pytest.mark.parametrize(("temperature", "worth"), WORTH.items())
def test_degree_hours_anderson1986(temperature, worth):
    assert degree_hours(temperature) == pytest.approx(worth, abs=1e-5)
