"""Positions from tapes, bearings and offsets, checked against worked examples of surveying."""

import numpy as np
import pytest
import shapely
from shapely.geometry import Point

from model.survey.fixing import offset_place, taped_fix
from model.survey.measuring import area, bearing, distance, towards

pytestmark = pytest.mark.published

# Jerry Mahun, Open access surveying library, COGO: solution of the self study on intersections
# and transformations, problem 1 (jerrymahun.com, 160-sol-ss-cogo-3-p1). North and east [ft] to
# three decimals, azimuths to one second of arc.
STATION = (2000.0, 1000.0)  # east, north, as assumed there
SECOND = (1811.082, 480.951)
LEFT_REAR, FRONT = (1450.051, 836.445), (2435.613, 463.846)
TO_LEFT_REAR, TO_FRONT = (573.754, 253 + 26 / 60 + 15 / 3600), (690.811, 140 + 54 / 60 + 25 / 3600)
# Half a second over 700 ft is 0.0017 ft, and a last digit 0.0005 ft.
TOLERANCE = 0.0025


@pytest.mark.parametrize(
    ("length", "azimuth", "place"), [(*TO_LEFT_REAR, LEFT_REAR), (*TO_FRONT, FRONT)]
)
def test_a_bearing_and_a_distance_lead_where_the_worked_example_says(length, azimuth, place):
    assert towards(STATION, azimuth, length) == pytest.approx(place, abs=TOLERANCE)


def test_the_way_back_gives_the_bearing_and_distance_of_the_worked_example():
    assert bearing(STATION, SECOND) == pytest.approx(200.0, abs=0.5 / 3600)
    assert distance(LEFT_REAR, FRONT) == pytest.approx(1053.642, abs=0.001)


def test_two_tapes_find_the_station_of_the_worked_example():
    fix = taped_fix(LEFT_REAR, TO_LEFT_REAR[0], FRONT, TO_FRONT[0], "left")
    assert fix.place == pytest.approx(STATION, abs=TOLERANCE)
    # The angle between the two lines at the station is the difference of their azimuths there.
    assert fix.crossing == pytest.approx(TO_LEFT_REAR[1] - TO_FRONT[1], abs=1 / 3600)


def test_two_tapes_meet_where_a_bearing_and_a_distance_meet():
    """Mahun, COGO, chapter E2: J, K [ft], azimuth 329 46' 45" from J, 738.15 from K."""
    j, k = (3511.69, 1419.51), (2341.36, 2056.64)
    by_bearing = towards(j, 329 + 46 / 60 + 45 / 3600, 878.915)  # the shorter of his two solutions
    assert distance(k, by_bearing) == pytest.approx(738.15, abs=0.006)
    fix = taped_fix(j, 878.915, k, 738.15, "right")
    assert fix.place == pytest.approx(by_bearing, abs=0.02)


def test_herons_triangle_has_its_foot_at_five_and_its_height_of_twelve():
    """Heron of Alexandria, Metrica I.5 and I.8: sides 13, 14, 15; area 84."""
    fix = taped_fix((0, 0), 13, (14, 0), 15, "left")
    assert fix.place == pytest.approx((5, 12), abs=1e-12)
    assert area([(0, 0), (14, 0), fix.place]) == pytest.approx(84, abs=1e-12)


def test_three_four_five_makes_a_square_corner():
    """The builders' rule, Euclid I.48: common practice of setting out with a tape."""
    assert taped_fix((0, 0), 3, (0, 4), 5, "right").place == pytest.approx((3, 0), abs=1e-12)
    assert taped_fix((0, 0), 3, (0, 4), 5, "left").place == pytest.approx((-3, 0), abs=1e-12)


@pytest.mark.parametrize(("chainage", "offset"), [(4.25, 1.12), (7.40, 3.40), (13.0, 1.25)])
def test_offsets_left_of_a_base_line_lie_square_off_it(chainage, offset):
    """Field book of an old surveyor's manual (h2c1AAAAMAAJ, section IV, of off-sets), in chains.

    Shapely is the independent judge of where a square off the line lies.
    """
    start, end = (2.0, 1.0), (14.0, 10.0)
    place = offset_place(start, end, chainage, offset, "left")
    line = shapely.LineString([start, end])
    assert line.project(Point(place)) == pytest.approx(chainage, abs=1e-9)
    assert line.distance(Point(place)) == pytest.approx(offset, abs=1e-9)
    assert shapely.is_ccw(shapely.LinearRing([start, end, place]))


def test_tapes_meet_where_two_circles_do_for_shapely():
    draw = np.random.default_rng(4)
    for _ in range(20):
        first, second = draw.uniform(-20, 20, (2, 2))
        truth = draw.uniform(-20, 20, 2)
        reach, other = np.hypot(*(truth - first)), np.hypot(*(truth - second))
        side = "left" if np.cross([*(second - first), 0], [*(truth - first), 0])[2] > 0 else "right"
        fix = taped_fix(tuple(first), reach, tuple(second), other, side)
        rings = [Point(c).buffer(r, 4096).exterior for c, r in ((first, reach), (second, other))]
        meets = shapely.get_coordinates(rings[0].intersection(rings[1]))
        assert np.hypot(*(meets - fix.place).T).min() < 0.01
