"""Where soils are full in steady rain, against O'Loughlin (1986)."""

import numpy as np
import pytest

from model.land import terrain
from model.land.waterlogging import drain_rate
from model.land.wetness import topographic_wetness

pytestmark = pytest.mark.published


def test_a_slope_is_full_from_its_transmissivity_over_rain_oloughlin1986():
    # Water Resources Research 22:794: a planar slope is full below the length T tan b / q. With
    # 50 mm/h of conductivity, 1 m of soil, 2 % of slope and 2 mm of rain a day: 12 m.
    _, y = np.meshgrid(np.arange(20) * 2.0, np.arange(12) * 2.0)
    z = 0.02 * y
    wetness = topographic_wetness(z, terrain.slope(z, 2), 2, single=True)
    rate = drain_rate(wetness, 50.0, 1.0, height=0.0)[::-1, 10]  # height 0: nothing sinks away
    length = 2.0 * np.arange(1, 13)
    assert (rate < 2.0).tolist() == (length > 12).tolist()
    assert rate == pytest.approx(24 * 50 * 0.02 / length)
