"""Planting windows, watering doses, guards and stakes against what is published."""

from datetime import date

import numpy as np
import pytest

from model.factors.browsing import GUARDS
from model.ground.weather_years import WeatherYears
from model.land import reference_climate
from model.planting.buying.staking import staking
from model.planting.dates.calendar import calendar
from model.planting.dates.dormancy import dormancy
from model.planting.dates.pruning import pruning_table
from model.planting.effort.bringing_water import thirst
from model.trees import Option
from tests.model.planting.plans import demo_plan
from tests.model.small_site import CATALOGUE, study

pytestmark = pytest.mark.published


def day(month: int, day_: int) -> int:
    return date(2001, month, day_).timetuple().tm_yday


def english_years() -> WeatherYears:
    """The reference climate of lowland England."""
    hourly = reference_climate.reference_hours()
    low, high = hourly.min(axis=2), hourly.max(axis=2)
    return WeatherYears(hourly, low, high, np.zeros(low.shape), {})


def test_in_england_trees_stand_bare_within_the_season_for_moving_them():
    # Royal Horticultural Society, Trees and shrubs: moving: deciduous trees from late October to
    # mid-March. Bare-root trees are sold from November to March: common practice, no source. Ours
    # may end up to two weeks later, and must hold the middle of the season whole.
    bare = dormancy(english_years())
    assert day(10, 20) <= bare.first <= day(12, 1)
    assert day(3, 1) <= bare.last <= day(3, 31)


def test_in_the_south_planting_falls_within_late_april_to_mid_september():
    # The British season shifted by half a year: common practice, no source.
    table = calendar(*demo_plan("sallowbend"), 2027)
    plant = table[table["what"].str.startswith("Plant ")]
    assert plant["first"].min() >= "2027-04-20"
    assert plant["last"].max() <= "2027-09-15"


def test_first_summer_watering_lies_between_the_published_doses_and_dates():
    # A bucket of 10 l a week for a fruit tree: Orange Pippin Trees, Watering fruit trees. 20 l a
    # week from April to the end of September: Dun Laoghaire-Rathdown County Council, Water the
    # trees. 50 l a week for street trees: Bromley; Arboricultural Association, as quoted by Zero
    # Carbon Luton. Each for dry weeks, ours the mean of a dry summer and its hottest week.
    made, placed = demo_plan("sorrelhay")
    table = calendar(made, placed, 2027)
    water = table[table["what"] == "Water, summer of year 1"]
    assert (water["first"] >= "2028-04-01").all()
    assert (water["last"] <= "2028-09-30").all()
    for tree in placed.trees:
        drinks = thirst(made, tree)
        assert 10 <= drinks.week <= 50


def test_the_second_summer_asks_for_no_more_than_the_first():
    # Weekly in the first year, fortnightly in the second, monthly in the third: Dun
    # Laoghaire-Rathdown County Council, Water the trees.
    for site in ("sorrelhay", "sallowbend"):
        made, placed = demo_plan(site)
        for tree in placed.trees:
            litres = thirst(made, tree).litres
            assert (litres[1] <= litres[0] + 1e-9).all()


@pytest.mark.parametrize(
    ("animal", "browse_line"),
    [("red deer", 1.5), ("fallow deer", 1.5), ("roe deer", 1.1), ("muntjac", 1.1)],
)
def test_a_guard_stands_above_the_browse_line(animal, browse_line):
    # A to Z of tree terms, Deer damage: browse lines.
    assert GUARDS[animal][0] >= browse_line


@pytest.mark.parametrize(
    ("animal", "height"),
    [
        ("sheep", 1.5),  # Natural England grant option TE8, tree guard (wood post and wire)
        ("cattle", 2.0),  # Countryside Stewardship TE7, wood post and rail
        ("goat", 1.8),  # Scottish rural payments, guidance for post and rail tree guards
        ("horse", 1.8),  # the same, the small square
    ],
)
def test_guards_against_stock_are_as_high_as_grants_ask(animal, height):
    assert GUARDS[animal][0] == height


@pytest.mark.parametrize("rootstock", ["M27", "M9", "M26"])
def test_the_dwarfing_apple_stocks_keep_their_stake(rootstock):
    # Royal Horticultural Society, Rootstocks for fruit: permanent staking.
    made = study(options=(Option("apple", "Discovery", rootstock),))
    assert staking(made, 0).stays


def test_mm106_is_staked_for_five_years():
    # The Mother Tree, Rootstocks.
    assert staking(study(options=(Option("apple", "Discovery", "MM106"),)), 0).years == 5


def test_every_fruit_of_the_catalogue_has_its_pruning_time():
    assert set(pruning_table()) == set(CATALOGUE.species())
