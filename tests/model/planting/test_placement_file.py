"""placement.csv says what stands where, and is read again as the same plan."""

import pandas as pd
import pytest

from model.csv_text import csv_text
from model.planting.placement_file import (
    ALTERNATIVES,
    PLACEMENT,
    alternatives_table,
    placement_table,
    read_plan,
)
from model.planting.placing import alternatives, place_order
from model.planting.year_after.standing import standing_trees
from model.survey.faults import SurveyFaults
from tests.model.planting.orders import COX, DISCOVERY, field, order, pegs_of, row_of_pegs, stand

HEADER = ",".join(PLACEMENT) + "\n"


@pytest.fixture(scope="module")
def made():
    return field([COX, DISCOVERY], row_of_pegs(7, 7, 7))


@pytest.fixture(scope="module")
def placed(made):
    return place_order(made, order(made, 1, 1))


def test_a_plan_comes_back_as_it_was_written_at_pegs_and_between_them(made, placed, tmp_path):
    file = tmp_path / "placement.csv"
    days = {placed.trees[0].place: "2027-02-13"}
    file.write_text(csv_text(placement_table(made, placed, days)), encoding="utf-8")
    read = read_plan(made, file)
    assert [tree.place for tree in read.placement.trees] == [tree.place for tree in placed.trees]
    assert stand(read.placement) == stand(placed)
    assert [tree.wish for tree in read.placement.trees] == [tree.wish for tree in placed.trees]
    assert read.placement.total == pytest.approx(placed.total)
    assert read.planted == days


def test_the_review_reads_a_plan_at_pegs(made, tmp_path):
    pegs = place_order(made, order(made, 1, 1), pegs_of(made))
    (tmp_path / "placement.csv").write_text(csv_text(placement_table(made, pegs)), encoding="utf-8")
    trees = standing_trees(made, tmp_path)
    assert {(tree.place, tree.option) for tree in trees} == {
        (tree.place, tree.option) for tree in pegs.trees
    }


def test_every_fault_of_a_plan_is_said(made, tmp_path):
    file = tmp_path / "placement.csv"
    rows = [
        "Nowhere,900,900,apple,Discovery,M9,,,",
        "P0,6,12,apple,Nobody,M9,,,",
        "P1,13,12,apple,Discovery,M9,,,",
        "P1,13,12,apple,Cox's Orange Pippin,M26,,2,",
        "P1,13,12,apple,Cox's Orange Pippin,M26,,,",
    ]
    file.write_text(HEADER + "\n".join(rows) + "\n", encoding="utf-8")
    with pytest.raises(SurveyFaults) as caught:
        read_plan(made, file)
    found = sorted((fault.row, fault.field) for fault in caught.value.faults)
    assert found == [(2, "spot"), (3, "species"), (5, "score"), (6, "spot")]


def test_alternatives_are_one_row_a_tree_with_what_differs(made, placed):
    others = alternatives(made, order(made, 1, 1), placed)
    table = alternatives_table(made, placed, others)
    assert list(table.columns) == ALTERNATIVES
    assert len(table) == 2 * len(others) > 0
    assert table["worth"].between(0.98, 1.00001).all()
    assert (table["says"].str.len() > 0).all()
    assert isinstance(table, pd.DataFrame)
