"""What is not drawn is taken as typed once it is right, and said when it is not."""

import numpy as np
import pytest

from model.survey import Plane, SurveyFaults, read_site, same_site, write_site
from model.survey import site_changes as change
from tests.model.demo import demo_study

MONTHS = "\n".join(f"{month}\t1.5\t9\t3\t3.5\t80\t14" for month in range(1, 13))


@pytest.fixture
def site():
    return demo_study().site


def test_a_new_site_says_all_it_does_not_know(site):
    place = {"latitude": "48", "longitude": "-6", "altitude_m": "20", "timezone": "Europe/Paris"}
    new = change.new_site({"name": "Long Meadow", "grid_m": "", **place})
    assert (new.latitude, new.cell) == (48.0, 2.0)
    assert set(new.absent) >= {"hub", "boundary", "weather"}


def test_all_that_is_wrong_is_said_at_once(site):
    with pytest.raises(SurveyFaults) as caught:
        change.with_general(site, {"latitude": "95", "altitude_m": "high"})
    assert [fault.field for fault in caught.value.faults] == ["latitude", "altitude_m"]
    with pytest.raises(SurveyFaults, match="Europe/London"):
        change.with_general(site, {"timezone": "Europe/Lundon"})


def test_soil_and_slope_are_taken_and_count_as_known(site):
    soil = change.with_soil(site, {"ph": "7.1", "ph_plus_minus": "0.3"})
    assert (soil.soil.ph, soil.soil_plus_minus) == (7.1, {"ph": 0.3})
    slope = change.with_slope(site, {"slope_percent": "6", "aspect_deg": "180"})
    assert slope.heights == Plane(6.0, 180.0, site.altitude)


def test_pasted_heights_and_months_are_read_with_their_rows(site):
    heights = change.with_spot_heights(site, "0 \t 0\t60\n20\t0\t61\n0\t20\t62").heights
    np.testing.assert_array_equal(heights.z, [60, 61, 62])
    with pytest.raises(SurveyFaults, match="row 3, z_m"):
        change.with_spot_heights(site, "0,0,60\n20,0,high\n0,20,62")
    assert change.with_months(site, MONTHS).weather.table.loc[7, "rain"] == 80
    with pytest.raises(SurveyFaults, match="month"):
        change.with_months(site, "\n".join(MONTHS.splitlines()[:11]))


def test_what_was_changed_can_be_written_and_read(site, tmp_path):
    changed = change.with_months(change.with_soil(site, {"texture": "clay"}), MONTHS)
    changed = change.with_slope(changed, {"slope_percent": "4", "aspect_deg": "90"})
    write_site(changed, tmp_path)
    assert same_site(read_site(tmp_path), changed)
