"""Lengths, bearings and areas."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LinearRing, Polygon

from model.survey.measuring import area, bearing, distance, length, moved, towards

PLACE = st.tuples(st.floats(-100, 100), st.floats(-100, 100))


@given(PLACE, st.floats(0, 359.9), st.floats(0.1, 100))
def test_going_somewhere_and_looking_back_agree(start, degrees, metres):
    end = towards(start, degrees, metres)
    assert distance(start, end) == pytest.approx(metres, rel=1e-6)
    assert abs((bearing(start, end) - degrees + 180) % 360 - 180) < 1e-3


@given(st.lists(PLACE, min_size=3, max_size=8, unique=True))
def test_area_and_length_are_those_of_shapely(points):
    outline = Polygon(points)
    if outline.is_valid:
        assert area(points) == pytest.approx(outline.area, abs=1e-6)
    assert length(points, closed=True) == pytest.approx(LinearRing(points).length, abs=1e-9)


def test_moved_shifts_every_point():
    assert moved([(0, 0), (1, 2)], 3, -1) == ((3, -1), (4, 1))
    assert area([(0, 0), (1, 1)]) == 0
