"""A place lands at the right metres, checked with geodesics."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pyproj import Geod
from shapely.geometry import Point

from model.survey.frame import Frame

# Karney (2013), Algorithms for geodesics, J. Geodesy 87: distances and bearings on the ellipsoid,
# a method of its own beside the projection, by PROJ's Geod
# m; at 1 km the projection itself is off by 0.01 mm, and PROJ takes an origin of 1e-9 degrees for 0
OFF = 2e-4
GEODESICS = Geod(ellps="WGS84")


# PROJ takes an origin nearer to 0 than a hundred-millionth of a degree, 1 mm, for 0.
@given(
    st.floats(-70, 70),
    st.floats(-180, 180).map(lambda degrees: round(degrees, 7)),
    st.floats(0, 360),
    st.floats(0.01, 1000),
)
def test_distance_and_bearing_from_the_origin_are_those_of_the_geodesic(
    latitude, longitude, bearing, distance
):
    there = GEODESICS.fwd(longitude, latitude, bearing, distance)
    place = Frame(latitude, longitude).local(Point(there[0], there[1]))
    assert place.x == pytest.approx(distance * np.sin(np.radians(bearing)), abs=OFF)
    assert place.y == pytest.approx(distance * np.cos(np.radians(bearing)), abs=OFF)


@given(st.floats(-75, 75), st.floats(-180, 180), st.floats(-20000, 20000), st.floats(-20000, 20000))
def test_there_and_back_is_the_same_place(latitude, longitude, x, y):
    frame = Frame(latitude, longitude)
    back = frame.local(frame.geographic(Point(x, y)))
    assert back.distance(Point(x, y)) < 1e-5


def test_distances_hold_within_two_parts_in_a_million_at_ten_kilometres():
    frame = Frame(52.0, -3.0)
    a, b = (frame.geographic(Point(10_000, y)) for y in (0, 1000))
    _, _, distance = GEODESICS.inv(a.x, a.y, b.x, b.y)
    assert distance == pytest.approx(1000, rel=2e-6)


def test_a_system_is_known_by_its_name_when_it_leads_here():
    frame = Frame(52.0, -3.0)
    assert frame.system("EPSG:27700").to_epsg() == 27700
    for name in (None, "moon", "EPSG:5773", 'LOCAL_CS["paper",UNIT["metre",1]]'):
        assert frame.system(name) is None


def test_a_kilometre_east_north_is_off_by_little():
    # the y axis against the geodesic's bearing: x tan(latitude) / R, 0.009 degrees times 1.28
    frame = Frame(52.0, -3.0)
    a, b = (frame.geographic(Point(1000, y)) for y in (0, 1000))
    bearing, _, _ = GEODESICS.inv(a.x, a.y, b.x, b.y)
    assert abs(bearing) == pytest.approx(0.009 * np.tan(np.radians(52)), rel=0.03)
