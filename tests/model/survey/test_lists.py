"""Pegs and the short list are read with their faults and written so that pandas reads the same."""

import io

import pandas as pd

from model.survey.lists import options, options_text, spots, spots_text
from tests.model.survey.examples import folder_with, site


def test_spots_come_back_the_same_with_their_rows(tmp_path):
    folder = folder_with(tmp_path, spots_csv=spots_text(site().spots))
    read = spots(folder)
    assert tuple(spot for spot, _ in read) == site().spots
    assert [row for _, row in read] == [2, 3]
    assert folder.faults == []


def test_options_come_back_the_same(tmp_path):
    folder = folder_with(tmp_path, options_csv=options_text(site().options))
    assert options(folder) == site().options


def test_pandas_reads_the_same():
    table = pd.read_csv(io.StringIO(spots_text(site().spots)))
    assert table["spot"].tolist() == [spot.name for spot in site().spots]
    assert table["y_m"].tolist() == [2.25, -40]


def test_a_name_given_twice_is_named_with_both_rows(tmp_path):
    folder = folder_with(tmp_path, spots_csv="spot,x_m,y_m\nA,0,0\nB,1,1\nA,2,2\n")
    spots(folder)
    [fault] = folder.faults
    assert (fault.row, fault.field) == (4, "spot")
    assert "row 2" in fault.found


def test_a_tree_listed_twice_or_in_part_is_named(tmp_path):
    text = "species,cultivar,rootstock\napple,Beth,M9\napple,Beth,M9\npear,Beth,\n"
    folder = folder_with(tmp_path, options_csv=text)
    options(folder)
    assert {(fault.row, fault.field) for fault in folder.faults} == {
        (3, "species"),
        (4, "rootstock"),
    }
