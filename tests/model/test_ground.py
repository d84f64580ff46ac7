"""The land at every place, from whatever the survey holds."""

import numpy as np
import pandas as pd
import pytest
import shapely

from model.ground.weather_years import weather_years
from model.survey.heights import Plane
from model.survey.site import Spot
from model.survey.weather import Weather
from tests.model.small_site import LineString, Point, box, feature, site, study, tree


def daily(first: str, last: str) -> pd.DataFrame:
    """A made-up daily record whose temperature tells the day of the year."""
    days = pd.date_range(first, last, freq="D")
    warmth = 10 - 8 * np.cos(2 * np.pi * (days.day_of_year.to_numpy() - 15) / 365)
    return pd.DataFrame({"tmin": warmth - 4, "tmax": warmth + 4, "rain": 2.0}, index=days)


def test_a_daily_record_becomes_its_whole_years_without_leap_days():
    years = weather_years(Weather("daily", daily("2003-06-01", "2006-02-01"), 50.0), 52.0)
    rain = years.rain.sum(axis=1)
    known = ~np.isnan(rain)
    assert known.tolist() == [False, True, True, False]
    assert rain[known] == pytest.approx([730.0, 730.0])
    assert years.hourly.shape == (4, 365, 24)


def test_a_short_gap_is_bridged_and_a_long_one_leaves_the_year_unknown():
    record = daily("2001-01-01", "2003-12-31")
    short = record.drop(record.loc["2002-05-03":"2002-05-05"].index)
    long = record.drop(record.loc["2002-05-03":"2002-06-05"].index)
    assert np.isfinite(weather_years(Weather("daily", short, 0.0), 52.0).hourly).all()
    unknown = np.isnan(weather_years(Weather("daily", long, 0.0), 52.0).hourly).all(axis=(1, 2))
    assert unknown.tolist() == [False, True, False]


def test_no_winter_is_sewn_together_across_a_gap():
    record = daily("2001-01-01", "2004-12-31")
    gap = record.drop(record.loc["2002-05-03":"2002-06-05"].index)
    made = study(weather=Weather("daily", gap, 50.0))
    assert np.isnan(made.ground.climate.chill[:, 1]).tolist() == [True, True, False]
    assert np.isfinite(made.measure("climate_fit")[:, made.ground.places.inside]).all()


def test_hours_become_their_whole_years():
    hours = pd.date_range("2001-07-01", "2003-03-01", freq="h")
    table = pd.DataFrame({"temperature": 8.0, "rain": 0.1}, index=hours)
    years = weather_years(Weather("hourly", table, 0.0), 52.0)
    assert years.hourly.shape == (1, 365, 24)
    assert years.rain.sum(axis=1) == pytest.approx([876.0])


def test_a_record_shorter_than_a_year_is_refused_in_words():
    with pytest.raises(ValueError, match="whole calendar year"):
        weather_years(Weather("daily", daily("2003-06-01", "2003-09-01"), 0.0), 52.0)


def test_distances_to_obstacles_are_those_of_plane_geometry():
    drawn = [feature("building", box(10, 10, 20, 20), "the barn", height_m=5.0)]
    made = study(drawn, spots=(Spot("peg", 25.0, 15.0),))
    label = made.ground.obstacles.labels.index("the barn")
    distance = made.ground.obstacles.distance[label]
    assert distance[-1] == pytest.approx(5.0)
    points = shapely.points(made.ground.places.x, made.ground.places.y)
    inside = shapely.contains(box(10, 10, 20, 20), points)
    assert (distance[inside] < 0).all()
    assert (distance[~inside] >= 0).all()


def test_a_hub_drawn_inside_the_house_walks_out_of_it():
    house = feature("building", box(25, 25, 35, 35), "the house", height_m=6.0)
    made = study([house], hub=(30.0, 30.0), spots=(Spot("peg", 45.0, 30.0),))
    assert np.isfinite(made.ground.walk[-1])


@pytest.mark.parametrize("cell", [1.0, 1.5, 2.0, 3.0])
@pytest.mark.parametrize("y", [39.0, 40.0, 40.4])
def test_a_thin_wall_has_no_holes_however_the_grid_lies(cell, y):
    wall = feature("wall", LineString([(-5, y - 7), (65, y + 6)]), "the wall", height_m=1.5)
    made = study([wall], cell=cell, hub=(30.0, 10.0), spots=(Spot("beyond", 30.0, 55.0),))
    assert np.isnan(made.ground.walk[-1])


def test_more_neighbours_never_hold_less_of_a_rooting_circle():
    few = study([tree("oak", 10, 10, 12.0)])
    more = study([tree("oak", 10, 10, 12.0), tree("poplar", 50, 50, 15.0)])
    assert (more.ground.roots.share.table >= few.ground.roots.share.table - 1e-6).all()


def test_a_view_out_of_a_window_is_not_hidden_by_its_own_house():
    house = feature("building", box(25, 5, 35, 15), "the house", height_m=6.0)
    view = feature(
        "view", Point(30, 15.2), "the view", bearing_deg=0.0, width_deg=40.0, wish="keep"
    )
    made = study([house, view], spots=(Spot("before it", 30.0, 35.0),))
    assert made.measure("views")[0, -1] > 3


def test_the_ground_knows_the_same_slope_and_aspect_as_the_plane_it_was_given():
    made = study(heights=Plane(12.0, 225.0, 50.0))
    assert made.ground.slope == pytest.approx(0.12, abs=1e-6)
    assert made.ground.aspect == pytest.approx(225.0, abs=1e-4)
    assert site().boundary.area == pytest.approx(3600)
