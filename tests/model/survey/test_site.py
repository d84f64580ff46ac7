"""A site knows its land, and two sites are the same when they say the same."""

from dataclasses import replace

import pytest
from shapely.geometry import Point

from model.survey import Feature, Plane, Site, Soil, Spot, same_site
from tests.model.survey.examples import features, monthly_weather, site, square

BARE = Site("bare", 52.0, -3.0, 60.0, "Europe/London")


def test_features_are_found_by_kind():
    assert [one.kind for one in site().of_kind("hedge", "boundary")] == ["boundary", "hedge"]


def test_the_boundary_is_the_one_drawn():
    assert site().boundary.equals(square(100))


def test_without_a_boundary_the_land_is_twenty_metres_round_all_that_is_drawn():
    spots = (Spot("a", 0, 0), Spot("b", 100, 0))
    tap = Feature("tap", "", Point(50, 40))
    west, south, east, north = replace(BARE, spots=spots, features=(tap,)).boundary.bounds
    assert (west, south, east, north) == pytest.approx((-20, -20, 120, 60), abs=0.01)


def test_with_nothing_drawn_the_land_lies_round_the_origin():
    assert BARE.boundary.contains(Point(0, 19))
    assert replace(BARE, hub=(500.0, 0.0)).boundary.contains(Point(519, 0))


def test_a_plane_passes_through_the_origin_at_the_altitude_of_the_site():
    assert replace(BARE, heights=Plane(5, 90)).heights.surface(0, 0) == 60


def test_a_site_is_the_same_as_its_twin_wherever_both_were_read():
    twin = replace(site(), folder="elsewhere", absent={"hub": "no hub"})
    assert same_site(site(), twin)
    assert same_site(site(), replace(site(), hub=(10.0004, -20.5)))


@pytest.mark.parametrize(
    "change",
    [
        {"name": "other"},
        {"altitude": 61.0},
        {"cell": 3.0},
        {"hub": None},
        {"hub": (10.0, -20.0)},
        {"soil": Soil()},
        {"features": features()[:2]},
        {"heights": None},
        {"heights": Plane(5, 90)},
        {"weather": None},
        {"spots": ()},
        {"spots": (Spot("A", 1.5, 2.25, "new note"), site().spots[1])},
        {"options": ()},
        {"weather": replace(monthly_weather(), seed=8)},
        {"weather": replace(monthly_weather(), table=monthly_weather().table + 0.1)},
    ],
    ids=str,
)
def test_any_change_makes_another_site(change):
    assert not same_site(site(), replace(site(), **change))
