"""How long the root zone stands wet: clay, hollows and rain keep it so."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from model.land.soil_texture import soil_water
from model.land.waterlogging import drain_rate, wet_months

surpluses = arrays(float, (2, 60), elements=st.integers(0, 25).map(float))


def months(surplus, sand, clay, wetness=6.0, height=3.0):
    soil = soil_water(sand, clay)
    rate = drain_rate(wetness, soil.conductivity, 0.8, height)
    return wet_months(surplus, rate, 600 * soil.drainable)


@given(surplus=surpluses, sand=st.floats(0, 90), clay=st.floats(0, 60), more=st.floats(0, 30))
def test_more_clay_never_drains_better(surplus, sand, clay, more):
    lean = min(clay, 100 - sand)
    rich = min(lean + more, 100 - sand)
    assert months(surplus, sand, rich) >= months(surplus, sand, lean)


@given(surplus=surpluses, more=surpluses)
def test_more_rain_never_stands_for_a_shorter_time(surplus, more):
    assert months(surplus + more, 30, 35) >= months(surplus, 30, 35)


@given(surplus=surpluses, height=st.floats(0, 5), more=st.floats(0, 5), wetness=st.floats(2, 14))
def test_higher_and_less_gathering_ground_is_never_wetter(surplus, height, more, wetness):
    low = months(surplus, 30, 35, wetness, height)
    assert months(surplus, 30, 35, wetness, height + more) <= low
    assert months(surplus, 30, 35, wetness - more, height) <= low


def test_in_a_wet_winter_clay_stands_wet_where_loam_does_not():
    # Common practice, no source: loam above, clay below; and a hollow of the same clay is worse.
    # 130 mm fall in each of five winter months, a few days apart, and 12 mm evaporate.
    surplus = np.zeros((5, 365))
    surplus[:, :150:3] = 12.0
    loam, clay = months(surplus, 40, 20), months(surplus, 25, 50)
    assert loam < 0.5
    assert clay > 3
    assert months(surplus, 40, 20, wetness=11, height=0) > 3


def test_a_place_that_is_not_known_stays_so():
    found = wet_months(np.ones((1, 365)), [np.nan, 5.0], 100.0)
    assert np.isnan(found[0])
    assert found[1] == pytest.approx(0)


def test_ground_that_leads_nothing_away_is_wet_all_year():
    assert wet_months(np.full((1, 365), 5.0), [0.0], 1.0) == pytest.approx([12])
