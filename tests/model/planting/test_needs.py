"""What to buy: quantities that follow from trees and land, and no price made up."""

import math

import pytest
from shapely.geometry import LineString, Point

from model.csv_text import csv_text
from model.planting.buying.bill import bill
from model.planting.buying.needs import NEEDS, needs
from model.planting.buying.prices import Prices
from model.survey.site import Soil
from model.trees import Option
from tests.model.planting.plans import demo_plan, plan
from tests.model.small_site import APPLE, PLUM, feature, study

ON_M9 = Option("apple", "Discovery", "M9")
TAP = feature("tap", Point(31, 31), "House tap")


def table_of(made, *trees, prices=None):
    return needs(made, plan(made, *trees), prices).set_index("item")


def test_every_tree_of_the_plan_is_bought_once():
    made, placed = demo_plan()
    table = needs(made, placed)
    trees = table[table["unit"] == "tree"]
    assert list(table.columns) == NEEDS
    assert trees["quantity"].sum() == len(placed.trees)
    assert (table["why"].str.len() > 0).all()
    assert (table["source"].str.len() > 0).all()


def test_two_of_a_kind_stand_in_one_row():
    table = table_of(study(), (10.0, 10.0, 0), (20.0, 10.0, 0))
    assert table.loc[APPLE.label, "quantity"] == 2
    assert table.loc[APPLE.label, "trees"] == "all 2 trees"


def test_a_dwarfing_stock_gets_a_stake_for_life_and_a_stronger_one_a_short_stake():
    table = table_of(study(options=(ON_M9, APPLE, PLUM)), (10, 10, 0), (20, 10, 1), (30, 10, 2))
    assert table.loc["stake, permanent", "quantity"] == 1
    assert table.loc["stake, short", "quantity"] == 2
    assert "MM106: first 5 years" in table.loc["stake, short", "why"]
    assert table.loc["tie", "quantity"] == 4


def test_a_deer_run_asks_for_a_tall_guard_near_it_and_a_rabbit_guard_elsewhere():
    run = feature("animal_run", LineString([(5, 0), (5, 60)]), "Run", animal="roe deer")
    table = table_of(study([run]), (8.0, 10.0, 0), (50.0, 10.0, 0))
    assert table.loc["guard against roe deer, 1.2 m high", "trees"].endswith("at A")
    assert table.loc["guard against rabbit, 0.6 m high", "trees"].endswith("at B")


def test_of_two_animals_the_taller_guard_is_bought():
    runs = [
        feature("animal_run", LineString([(5, 0), (5, 60)]), "Run", animal="rabbit"),
        feature("animal_run", LineString([(6, 0), (6, 60)]), "Way", animal="Cattle"),
    ]
    table = table_of(study(runs), (8.0, 10.0, 0))
    assert "guard against cattle, 2 m high" in table.index


def test_mulch_is_a_square_metre_ten_centimetres_deep_for_each_tree():
    # Common practice, no source.
    table = table_of(study(), (10, 10, 0), (20, 10, 0), (30, 10, 1))
    assert table.loc["mulch", "quantity"] == pytest.approx(0.3)
    assert "0.22 to 0.3 m3" in table.loc["mulch", "why"]


def test_an_acid_place_asks_for_lime_and_a_soil_test_and_a_right_one_for_neither():
    acid = table_of(study(soil=Soil(texture="loam", ph=5.0)), (10.0, 10.0, 0))
    # RB209 for arable land: 7 t/ha for 20 cm of a middling soil a pH unit, over a round of 1 m.
    assert acid.loc["lime", "quantity"] == pytest.approx(0.7 * math.pi / 4, abs=0.005)
    assert acid.loc["soil test", "quantity"] == 1
    assert not {"lime", "sulphur", "soil test"} & set(
        table_of(study(soil=Soil(texture="loam", ph=6.5)), (10.0, 10.0, 0)).index
    )


def test_ground_too_limy_to_mend_is_said_and_gets_no_dose():
    table = table_of(study(soil=Soil(texture="loam", ph=8.8)), (10.0, 10.0, 0))
    assert "sulphur" not in table.index
    assert "choose another fruit" in table.loc["soil test", "why"]


def test_a_hose_reaches_from_the_tap_to_the_farthest_tree_and_some_more():
    made = study([TAP])
    table = table_of(made, (31.0, 41.0, 0), (31.0, 9.0, 1))
    assert table.loc["hose", "quantity"] == 25
    assert not any(item.startswith("tank") for item in table.index)


def test_where_no_hose_reaches_the_dry_week_of_all_together_is_stored():
    corner = feature("tap", Point(1, 1), "Corner tap")
    many = [(59.0 - 2 * n, 59.0, 0) for n in range(5)]
    table = table_of(study([corner]), *many)
    week = 5 * float(study([corner]).ground.watering.week[0])
    (tank,) = [item for item in table.index if item.startswith("tank")]
    size = float(tank.removeprefix("tank, ").removesuffix(" l"))
    assert week <= size < week + 50
    assert "hose" not in table.index


def test_a_survey_without_tap_or_weather_gets_the_rule_of_thumb_and_says_so():
    table = table_of(study(), (10.0, 10.0, 0), (20.0, 10.0, 0))
    assert "tank, 100 l" in table.index
    assert "No tap or tank is drawn" in table.loc["tank, 100 l", "why"]


def test_what_has_no_price_is_named_and_never_counts_as_nothing():
    prices = Prices({"tree": 20.0, "tie": 1.5}, "EUR")
    table = table_of(study([TAP]), (31.0, 41.0, 0), (31.0, 20.0, 1), prices=prices)
    due = bill(table.reset_index())
    assert due.total == pytest.approx(2 * 20 + 2 * 1.5)
    assert due.currency == "EUR"
    assert set(due.unpriced) == set(table.index[table["price"].isna()])
    assert "hose" in due.unpriced
    assert "no price given: " in due.words
    assert not (table["price"] == 0).any()


def test_a_need_says_which_of_the_prices_it_was_given():
    prices = Prices({"tree": 20.0, "tree:plum": 9.0, "tree:st julien a": 25.0}, "EUR")
    table = table_of(study(), (10.0, 10.0, 0), (20.0, 10.0, 2), prices=prices)
    assert table.loc[APPLE.label, "each"] == 20
    assert table.loc[PLUM.label, "each"] == 25
    assert table.loc[PLUM.label, "why"].endswith("priced as tree:St Julien A")


def test_prices_change_no_quantity():
    made = study([TAP])
    plain = table_of(made, (31.0, 41.0, 0))
    priced = table_of(made, (31.0, 41.0, 0), prices=Prices({"tree": 9.0, "hose": 2.0}, "EUR"))
    assert plain["quantity"].tolist() == priced["quantity"].tolist()


def test_an_empty_plan_needs_nothing():
    table = needs(study(), plan(study()))
    assert list(table.columns) == NEEDS
    assert table.empty
    assert bill(table).words == "Nothing to buy."


def test_words_that_a_spreadsheet_would_reckon_with_are_disarmed():
    table = needs(study(), plan(study(), (10.0, 10.0, 0)))
    table.loc[0, "trees"] = "=HYPERLINK(1)"
    table.loc[1, "trees"] = "-2"
    text = csv_text(table)
    assert "'=HYPERLINK(1)" in text
    assert ",-2," in text
    assert text == csv_text(table)
