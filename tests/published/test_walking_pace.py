"""Walking speed against Tobler's hiking function."""

import numpy as np
import pytest

from model.land.walking import pace

pytestmark = pytest.mark.published

# Tobler (1993), NCGIA technical report 93-1, as tabulated by slope angle [degrees] and speed
# [km/h] in an encyclopedia's article on the function.
BY_ANGLE = {
    -20: 2.00, -10: 3.86, -5: 5.26, -2.8624: 6.00, 0: 5.04, 1: 4.74, 5: 3.71, 10: 2.72, 20: 1.41,
}  # fmt: skip


@pytest.mark.parametrize(("angle", "speed"), BY_ANGLE.items())
def test_speed_tobler1993(angle, speed):
    assert 3.6 / pace(np.tan(np.radians(angle))) == pytest.approx(speed, abs=0.005)


@pytest.mark.parametrize(
    ("slope", "seconds"), [(-0.5, 2.8984), (-0.05, 0.6), (0, 0.7148), (0.1, 1.0143), (0.5, 4.1131)]
)
def test_pace_from_the_formula_tobler1993(slope, seconds):
    # W = 6 exp(-3.5 |S + 0.05|) km/h, worked by hand.
    assert pace(slope) == pytest.approx(seconds, abs=1e-4)
