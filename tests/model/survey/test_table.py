"""CSV files come in as checked rows and go out so that pandas reads the same."""

import io
import math

import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.survey.attribute import REQUIRED, Attribute
from model.survey.table import checked_rows, raw_rows, table_text
from tests.model.survey.examples import folder_with

COLUMNS = (
    Attribute("spot", "", REQUIRED),
    Attribute("x_m", "m", REQUIRED, -100, 100),
    Attribute("note", "", ""),
)


def faults_of(tmp_path, text):
    folder = folder_with(tmp_path, spots_csv=text)
    rows = checked_rows(folder, "spots.csv", COLUMNS)
    return rows, folder.faults


def test_rows_count_as_in_a_spreadsheet_and_blank_ones_are_passed_over(tmp_path):
    rows, faults = faults_of(tmp_path, "spot,x_m,note\n\nA, 1.5 ,hm\n,,\nB,2\n")
    assert faults == []
    assert [(row.number, row.text_of("spot"), row.number_of("x_m")) for row in rows] == [
        (3, "A", 1.5),
        (5, "B", 2.0),
    ]


def test_every_fault_is_noted_at_once(tmp_path):
    _, faults = faults_of(tmp_path, "spot,x_m\n,1\nB,far\nC,1000\nD,1,2,3\n")
    assert [(fault.row, fault.field) for fault in faults] == [
        (5, "x_m"),
        (2, "spot"),
        (3, "x_m"),
        (4, "x_m"),
    ]


@pytest.mark.parametrize(
    ("header", "field", "mend"),
    [
        ("spot,x_m,noet", "noet", "'note'"),
        ("spot,x", "x", "deleting the column"),
        ("spot,note", "x_m", "adding it"),
        ("spot,x_m,x_m", "x_m", "deleting the others"),
        ("spot;x_m", "spot;x_m", "commas"),
    ],
)
def test_a_wrong_header_is_named(tmp_path, header, field, mend):
    _, faults = faults_of(tmp_path, f"{header}\n1,2,3\n")
    assert any(fault.field == field and mend in fault.mend for fault in faults)


def test_an_open_quotation_mark_is_a_fault(tmp_path):
    folder = folder_with(tmp_path, spots_csv='spot,x_m\n"A,1\n')
    assert raw_rows(folder, "spots.csv", COLUMNS) is None
    assert "quotation" in folder.faults[0].mend


@given(st.lists(st.tuples(st.text("aä, \"';", min_size=1), st.floats(-1e6, 1e6)), min_size=1))
def test_pandas_reads_what_is_written(rows):
    text = io.StringIO(table_text(["name", "x"], rows))
    table = pd.read_csv(text, dtype=str, keep_default_na=False)
    assert table["name"].tolist() == [name for name, _ in rows]
    assert table["x"].map(float).tolist() == [x for _, x in rows]


def test_not_known_is_written_blank_and_whole_numbers_plainly():
    assert table_text(["a", "b"], [(math.nan, 3.0)]) == "a,b\n,3\n"
