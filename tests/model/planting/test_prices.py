"""Prices: the most specific wins, what is missing stays unknown, every fault is said at once."""

import math

import pytest

from model.planting.buying.prices import Prices, read_prices
from model.survey.faults import SurveyFaults
from model.trees import Option
from tests.model.demo import DEMO
from tests.model.small_site import CATALOGUE

HEADER = "item,price,currency,note\n"
BRAMLEY = Option("apple", "Bramley", "M25")


def written(folder, rows):
    (folder / "prices.csv").write_text(HEADER + rows, encoding="utf-8")
    return folder


@pytest.mark.parametrize(
    ("rows", "price"),
    [
        ("tree,20,EUR,\n", 20),
        ("tree,20,EUR,\ntree:apple,21,EUR,\n", 21),
        ("tree,20,EUR,\ntree:apple,21,EUR,\ntree:M25,22,EUR,\n", 22),
        ("tree:M25,22,EUR,\ntree:Bramley,23,EUR,\n", 23),
        ("tree:Bramley,23,EUR,\ntree:bramley ON m25,24,EUR,\ntree,1,EUR,\n", 24),
        ("tree:M9,22,EUR,\ntree:pear,19,EUR,\n", math.nan),
    ],
)
def test_the_most_specific_price_of_a_tree_wins(tmp_path, rows, price):
    found = read_prices(written(tmp_path, rows), CATALOGUE).of_tree(BRAMLEY)
    assert found == price or (math.isnan(found) and math.isnan(price))


def test_a_price_left_blank_is_unknown_and_the_general_one_stands_in(tmp_path):
    prices = read_prices(
        written(tmp_path, "tank,,EUR,\nstake:permanent,,EUR,\nstake,4,EUR,\n"), CATALOGUE
    )
    assert math.isnan(prices.of("tank"))
    assert prices.of("stake", "permanent") == 4
    assert prices.item("stake", "permanent") == "stake"


def test_a_folder_without_the_file_has_no_prices(tmp_path):
    prices = read_prices(tmp_path, CATALOGUE)
    assert prices == Prices()
    assert math.isnan(prices.of("tree"))


def test_a_gift_costs_nothing_and_is_not_unknown(tmp_path):
    assert read_prices(written(tmp_path, "mulch,0,EUR,own\n"), CATALOGUE).of("mulch") == 0


def test_every_fault_of_the_file_is_said_at_once(tmp_path):
    rows = (
        "tree,20,EUR,\n"
        "stak,4,EUR,\n"
        "tie,-1,EUR,\n"
        "mulch,4,GBP,\n"
        "tree,21,EUR,\n"
        "tree:Brambly,21,EUR,\n"
        'lime,"0,6",EUR,\n'
        "hose:long,1,EUR,\n"
        "can,9,euro,\n"
    )
    with pytest.raises(SurveyFaults) as caught:
        read_prices(written(tmp_path, rows), CATALOGUE)
    found = {(fault.row, fault.field) for fault in caught.value.faults}
    assert found == {
        (3, "item"), (4, "price"), (5, "currency"), (6, "item"), (7, "item"), (8, "price"),
        (9, "item"), (10, "currency"),
    }  # fmt: skip
    said = str(caught.value)
    assert "prices.csv, row 7, item: found 'tree:brambly'" in said
    assert "writing 'Bramley' instead" in said
    assert "writing 'stake' instead" in said


@pytest.mark.parametrize("site", ["sorrelhay", "sallowbend"])
def test_the_prices_of_the_demo_are_read_and_say_that_they_are_invented(site):
    text = (DEMO.parent / site / "prices.csv").read_text(encoding="utf-8")
    assert read_prices(DEMO.parent / site, CATALOGUE).of("tree") > 0
    assert all("invented" in row or "not asked" in row for row in text.splitlines()[1:])
