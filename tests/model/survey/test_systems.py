"""A coordinate system for another part of the world is told, whatever the coordinates say."""

import pytest
from pyproj import CRS

from model.survey.frame import Frame
from model.survey.systems import outside


# Zones of Universal Transverse Mercator: Snyder (1987), USGS Professional Paper 1395, p. 57: zone n
# spans 6 degrees from 6 n - 186 east; EPSG codes 326nn north and 327nn south of the equator.
@pytest.mark.parametrize(
    ("code", "latitude", "longitude"),
    [(32630, 52.0, 20.0), (32730, 52.0, -3.0), (32630, -3.0, 52.0), (27700, -37.0, 145.0)],
)
def test_a_system_for_elsewhere_is_told(code, latitude, longitude):
    wrong = outside(CRS.from_epsg(code), Frame(latitude, longitude))
    assert wrong is not None
    assert "longitudes" in wrong.found


@pytest.mark.parametrize(
    ("code", "latitude", "longitude"),
    [(32630, 52.0, -3.0), (32630, 52.0, 4.0), (4326, -37.0, 145.0), (2193, -41.0, 174.0)],
)
def test_a_system_for_here_is_passed(code, latitude, longitude):
    assert outside(CRS.from_epsg(code), Frame(latitude, longitude)) is None
    assert outside(Frame(latitude, longitude).crs, Frame(0.0, 0.0)) is None  # has no area of use
