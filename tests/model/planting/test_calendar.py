"""The planting calendar: its order, its hemisphere, its cautions, and this site's own weather."""

from datetime import date

import numpy as np
import pytest
from shapely.geometry import LineString

from model.planting.dates.calendar import CALENDAR, calendar
from model.planting.dates.dormancy import dormancy
from model.planting.dates.season import Season, later
from model.survey.site import Soil
from model.trees import Option
from tests.model.planting.plans import demo_plan, plan
from tests.model.small_site import APPLE, PLUM, feature, monthly_weather, study

WALNUT = Option("walnut", "Broadview", "Walnut seedling")
APRICOT = Option("apricot", "Bergeron", "St Julien A")
STONE = ("plum", "gage", "cherry", "apricot", "peach", "damson")


@pytest.fixture(scope="module")
def north():
    return calendar(*demo_plan("sorrelhay"), 2027)


@pytest.fixture(scope="module")
def south():
    return calendar(*demo_plan("sallowbend"), 2027)


def rows(table, word):
    return table[table["what"].str.contains(word)]


def one(table, word):
    (row,) = rows(table, word).to_dict("records")
    return row


def months(table, word):
    found = rows(table, word)
    return {int(day[5:7]) for column in ("first", "last") for day in found[column]}


@pytest.mark.parametrize("name", ["north", "south"])
def test_every_task_is_whole(name, request):
    table = request.getfixturevalue(name)
    assert list(table.columns) == CALENDAR
    assert (table["first"] <= table["last"]).all()
    for column in ("first", "last"):
        assert table[column].map(date.fromisoformat).notna().all()
    for column in ("what", "trees", "how", "source"):
        assert (table[column].str.len() > 0).all()
        assert not table[column].str.contains("\n|nan|None").any()
    assert table["first"].is_monotonic_increasing


@pytest.mark.parametrize("name", ["north", "south"])
def test_one_orders_then_looks_for_services_then_plants_then_waters_then_reviews(name, request):
    table = request.getfixturevalue(name)
    order, mark = one(table, "^Order"), one(table, "^Mark")
    plant, water = rows(table, "^Plant "), rows(table, "^Water, summer of year 1")
    review = one(table, "^Review")
    assert order["last"] < mark["last"] < plant["first"].min()
    assert plant["last"].max() < water["last"].min()
    assert water["last"].max() < review["last"]
    assert plant["first"].min() < review["first"]


def test_the_north_plants_over_the_new_year_and_waters_in_its_summer(north):
    assert months(north, "^Plant ") <= {10, 11, 12, 1, 2, 3, 4}
    assert months(north, "^Water") <= {4, 5, 6, 7, 8, 9}
    assert rows(north, "^Plant ")["first"].str.startswith("2027").all()
    assert rows(north, "^Water, summer of year 1")["first"].str.startswith("2028").all()


def test_the_south_is_half_a_year_away(south):
    assert months(south, "^Plant ") <= {5, 6, 7, 8, 9}
    assert months(south, "^Prune plum") <= {12, 1}
    assert months(south, "^Prune apple") <= {6, 7, 8, 9}
    assert months(south, "^Measure") == {4}
    water = rows(south, "^Water, summer of year 1")
    assert (water["first"] > "2027-08").all()
    assert (water["last"] < "2028-05").all()


def test_stone_fruit_is_never_pruned_in_winter_nor_walnut_in_spring(north):
    # Silver leaf and bleeding: common practice, no source.
    for kind in STONE:
        assert months(north, f"^Prune .*{kind}") <= {6, 7, 8}
    made = study(options=(WALNUT,))
    table = calendar(made, plan(made, (10.0, 10.0, 0)), 2027)
    assert months(table, "^Prune walnut") <= {7, 8, 9}


def test_pome_fruit_is_pruned_bare(north):
    for kind in ("apple", "pear", "quince"):
        found = rows(north, f"^Prune {kind}")
        assert len(found) == 3
        assert months(north, f"^Prune {kind}") <= {12, 1, 2, 3}


def test_winter_pruning_ends_before_buds_swell(south):
    # Apples there flower early in September, so that the usual end of February comes too late.
    assert one(south, "^Prune apple, winter 1")["last"] <= one(south, "^Plant apple")["last"]


def test_the_years_follow_one_another():
    made, placed = demo_plan()
    first, second = (calendar(made, placed, winter) for winter in (2029, 2030))
    moved = {
        (row["what"], later(date.fromisoformat(row["first"]), 1))
        for row in first.to_dict("records")
    }
    found = {(row["what"], date.fromisoformat(row["first"])) for row in second.to_dict("records")}
    apart = {what for what, _ in moved ^ found}
    assert all("frost" in what or "Plant" in what or "Mark" in what for what in apart)  # leap day


def test_an_early_flowerer_is_planted_no_later_than_a_late_one():
    made = study(options=(APRICOT, APPLE))
    table = calendar(made, plan(made, (10.0, 10.0, 0), (50.0, 50.0, 1)), 2027)
    assert one(table, "^Plant apricot")["last"] < one(table, "^Plant apple")["last"]


def test_frost_is_watched_while_it_flowers(north):
    for row in rows(north, "^Watch for frost, apple").to_dict("records"):
        said = row["how"].split("about ")[1].split(" in a usual")[0]
        day, month = said.split()
        bloom = date(int(row["first"][:4]), ["January", "February", "March", "April", "May",
                                             "June"].index(month) + 1, int(day))  # fmt: skip
        assert date.fromisoformat(row["first"]) < bloom < date.fromisoformat(row["last"])


def test_the_first_summer_s_dates_and_litres_are_those_of_the_ground(north):
    made, placed = demo_plan()
    tree = placed.trees[3]
    (row,) = [
        row
        for row in rows(north, "^Water, summer of year 1").to_dict("records")
        if tree.name in row["trees"]
    ]
    ground = made.ground.watering
    assert f"{date.fromisoformat(row['first']):%-d %B}" == ground.first[tree.place]
    assert f"{date.fromisoformat(row['last']):%-d %B}" == ground.last[tree.place]
    assert f"{ground.lacking[0, 1, tree.place]:.0f} l in all" in row["how"]


def test_before_any_hole_services_are_looked_for(north):
    mark = one(north, "^Mark")
    assert "locator" in mark["caution"]
    assert "by hand" in mark["caution"]
    assert "local codes" in mark["caution"]
    assert "Water main" in mark["how"]


def test_under_an_overhead_line_the_operator_decides(north):
    plum = rows(north, "^(?:Plant|Prune) plum")
    assert plum["caution"].str.contains("only authorised people cut").all()
    assert plum["caution"].str.contains("House line 0.0 m from Cable").all()


def test_lime_brings_its_dust_and_comes_before_planting(north):
    lime = one(north, "^Lime")
    assert "goggles" in lime["caution"]
    assert "Test the soil first" in lime["how"]
    assert lime["last"] < rows(north, "^Plant ")["first"].min()


def test_a_ladder_on_a_slope_is_warned_of(north):
    assert rows(north, "^Prune plum")["caution"].str.contains("Ladders tip on slopes").all()


def test_ground_too_limy_calls_for_another_fruit_before_the_order_closes(south):
    row = one(south, "^Choose another fruit")
    assert "Ridge" in row["trees"]
    assert row["first"] <= one(south, "^Order")["last"]


def test_wet_ground_is_said_where_one_plants(north):
    assert "stands wet a part of the year at Hollow" in one(north, "^Plant pear")["how"]
    assert "stands wet" not in one(north, "^Plant apple")["how"]


def test_a_stake_goes_after_the_years_the_catalogue_gives_and_a_permanent_one_never(north):
    gone = rows(north, "^Take out")
    assert (
        one(north, "^Take out short stakes, winter 4")["trees"]
        == "Victoria on St Julien A at Middle field"
    )
    assert not gone["trees"].str.contains("M9|Pixy|Quince C|Gisela 5").any()


def test_a_site_without_weather_water_or_services_still_has_a_calendar():
    made = study(weather=None, soil=Soil(), absent={"weather": "No weather file."})
    table = calendar(made, plan(made, (10.0, 10.0, 0), (40.0, 40.0, 2)), 2027)
    assert "usual months" in one(table, "^Plant apple")["how"]
    assert "Not reckoned here" in one(table, "^Water, summer of year 1")["how"]
    assert rows(table, "^Watch for frost").empty


def test_a_run_near_a_tree_brings_its_guard_into_the_calendar():
    run = feature("animal_run", LineString([(5, 0), (5, 60)]), "Run", animal="sheep")
    made = study([run])
    table = calendar(made, plan(made, (8.0, 10.0, 0)), 2027)
    assert "1.5 m high" in one(table, "^Guard against sheep")["how"]


def test_a_warmer_climate_stands_bare_no_longer():
    cold, mild = (dormancy(study(weather=monthly_weather(w)).ground.years) for w in (-6.0, 0.0))
    # Frozen days make fewer fit ones.
    assert min(cold.fit_by_month().values()) < min(mild.fit_by_month().values())


def test_wetter_weather_leaves_fewer_days_fit_for_planting():
    dry, wet = (
        dormancy(study(weather=monthly_weather(rain=rain)).ground.years) for rain in (30.0, 200.0)
    )
    assert wet.fit.mean() < dry.fit.mean() - 0.2


def test_a_place_without_a_winter_has_no_bare_season():
    weather = monthly_weather()
    flat = weather.table.assign(tmin=20.0, tmax=28.0, tmin_sd=0.1, tmax_sd=0.1, year_sd=0.01)
    even = study(weather=type(weather)("monthly", flat, 50.0, seed=1, years=5))
    assert dormancy(even.ground.years) is None


@pytest.mark.parametrize("month", range(1, 13))
def test_the_hemispheres_are_six_months_apart(month):
    north, south = Season(2027, north=True), Season(2027, north=False)
    for of in ("in_winter", "in_summer"):
        apart = (getattr(north, of)(month, 15) - getattr(south, of)(month, 15)).days
        assert 181 <= apart <= 184


def test_an_empty_plan_has_an_empty_calendar():
    made = study()
    assert calendar(made, plan(made), 2027).empty


def test_the_same_plan_gives_the_same_calendar():
    made = study(options=(APPLE, PLUM))
    placed = plan(made, (10.0, 10.0, 0), (40.0, 40.0, 1))
    one_, other = calendar(made, placed, 2027), calendar(made, placed, 2027)
    assert np.array_equal(one_.to_numpy(), other.to_numpy())
