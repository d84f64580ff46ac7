"""Rows are read with care and refused with reasons."""

import pytest

from model.trees.rows import table_rows

HEADER = "species,cultivar,trait,value,unit,source,status,note"


def faults_of(tmp_path, *rows, header=HEADER):
    path = tmp_path / "cultivars.csv"
    path.write_text("\n".join([header, *rows]), encoding="utf-8")
    faults = []
    return table_rows(path, "cultivars", faults), faults


def test_a_good_row_becomes_a_value_with_its_source(tmp_path):
    rows, faults = faults_of(tmp_path, "apple,Our Own,pick_first,250,day of year,my notes,common,x")

    value = rows[("apple", "Our Own"), "pick_first"]
    assert not faults
    assert (value.value, value.unit, value.source, value.status, value.note) == (
        250.0,
        "day of year",
        "my notes",
        "common",
        "x",
    )


@pytest.mark.parametrize(
    ("row", "field"),
    [
        ("apple,A,pick_first,soon,day of year,me,common,", "value"),
        ("apple,A,pick_first,900,day of year,me,common,", "value"),
        ("apple,A,pick_first,nan,day of year,me,common,", "value"),
        ("apple,A,pick_first,250,week,me,common,", "unit"),
        ("apple,A,pick_frist,250,day of year,me,common,", "trait"),
        ("apple,A,pick_first,250,day of year,,common,", "source"),
        ("apple,A,pick_first,250,day of year,me,sure,", "status"),
        ("apple,A,ploidy,tetraploid,,me,common,", "value"),
        ("apple,A,use,,,me,common,", "value"),
        (",A,use,cider,,me,common,", "species"),
        ("apple,,use,cider,,me,common,", "cultivar"),
    ],
)
def test_a_bad_cell_is_named_with_its_row(tmp_path, row, field):
    _, faults = faults_of(tmp_path, row)

    assert [(fault.row, fault.field) for fault in faults] == [(2, field)]


def test_every_fault_of_a_row_and_of_a_file_is_told(tmp_path):
    _, faults = faults_of(
        tmp_path, "apple,A,pick_first,soon,week,,sure,", "", "apple,B,colour,red,,me,common,"
    )

    assert [fault.field for fault in faults] == ["unit", "value", "source", "status", "trait"]
    assert faults[-1].row == 4


def test_a_trait_given_twice_is_refused(tmp_path):
    row = "apple,A,use,cider,,me,common,"

    _, faults = faults_of(tmp_path, row, row)

    assert [(fault.row, fault.field) for fault in faults] == [(3, "trait")]


def test_missing_columns_are_named(tmp_path):
    _, faults = faults_of(tmp_path, header="species,cultivar,trait,value")

    assert "unit" in faults[0].found
    assert "status" in faults[0].found


def test_a_file_in_another_encoding_is_refused_with_a_remedy(tmp_path):
    path = tmp_path / "cultivars.csv"
    path.write_bytes(f"{HEADER}\npear,Beurré,use,x,,me,common,".encode("latin-1"))
    faults = []

    table_rows(path, "cultivars", faults)

    assert "UTF-8" in faults[0].mend


def test_a_spreadsheets_byte_order_mark_is_borne(tmp_path):
    path = tmp_path / "cultivars.csv"
    path.write_text(f"{HEADER}\napple,A,use,cider,,me,common,", encoding="utf-8-sig")
    faults = []

    assert len(table_rows(path, "cultivars", faults)) == 1
    assert not faults
