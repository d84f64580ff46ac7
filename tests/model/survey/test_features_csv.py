"""features.csv is read corner by corner and written so that pandas reads the same."""

import io

import pandas as pd
import pytest

from model.survey.drafts import checked_features
from model.survey.feature import same_feature
from model.survey.features_csv import COLUMNS, csv_drafts, csv_text, fits_csv
from tests.model.survey.examples import features, folder_with

WITHOUT_HOLES = tuple(one for one in features() if one.kind != "wet_ground")


def read(tmp_path, text):
    folder = folder_with(tmp_path, features_csv=text)
    return checked_features(folder, csv_drafts(folder, "features.csv")), folder.faults


def test_what_is_written_comes_back_the_same(tmp_path):
    back, faults = read(tmp_path, csv_text(WITHOUT_HOLES))
    assert faults == []
    assert all(map(same_feature, back, WITHOUT_HOLES))
    assert len(back) == len(WITHOUT_HOLES)


def test_pandas_reads_the_corners():
    table = pd.read_csv(io.StringIO(csv_text(WITHOUT_HOLES)))
    hedge = table[table["kind"] == "hedge"]
    assert hedge["x_m"].tolist() == [-50, 0, 50]
    assert hedge["height_m"].dropna().tolist() == [2.0]


def test_an_outline_with_a_hole_does_not_fit():
    assert fits_csv(WITHOUT_HOLES)
    assert not fits_csv(features())


def test_corners_follow_their_order_even_when_rows_are_mixed_and_kinds_left_blank(tmp_path):
    text = "feature,kind,x_m,y_m,width_m\na,path,0,0,2\nb,tap,5,5,\na,,3,0,\na,path,3,4,\n"
    [path, tap], faults = read(tmp_path, text)
    assert faults == []
    assert path.geometry.length == 7
    assert tap.geometry.coords[0] == (5, 5)


@pytest.mark.parametrize(
    ("rows", "row", "field"),
    [
        ("a,tap,0,0,\na,tap,1,1,", 2, "feature"),
        ("a,path,0,0,2", 2, "feature"),
        ("a,keep_clear,0,0,\na,,1,0,", 2, "feature"),
        ("a,path,0,0,2\na,wall,1,1,", 3, "kind"),
        ("a,path,0,0,2\na,,1,1,3", 3, "width_m"),
        ("a,path,0,east,2\na,,1,1,", 2, "y_m"),
        ("a,path,0,1e9,2\na,,1,1,", 2, "y_m"),
        (",path,0,0,2", 2, "feature"),
        ("a,pathh,0,0,2", 2, "kind"),
    ],
)
def test_what_is_wrong_is_named_by_row_and_column(tmp_path, rows, row, field):
    _, faults = read(tmp_path, f"feature,kind,x_m,y_m,width_m\n{rows}\n")
    assert (row, field) in [(fault.row, fault.field) for fault in faults]


def test_an_unknown_column_is_answered_with_the_nearest(tmp_path):
    _, [fault] = read(tmp_path, "feature,kind,x_m,y_m,hight_m\na,tap,0,0,\n")
    assert "'height_m'" in fault.mend


def test_every_attribute_has_its_column():
    assert len({column.name for column in COLUMNS}) == len(COLUMNS)
    assert {"species", "clearance_m", "wish"} <= {column.name for column in COLUMNS}
