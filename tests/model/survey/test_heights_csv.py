"""heights.csv is read with its faults and written so that pandas reads the same."""

import io

import numpy as np
import pandas as pd
import pytest

from model.survey.heights import same_heights
from model.survey.heights_csv import spot_heights, spot_heights_text
from tests.model.survey.examples import folder_with, site


def test_what_is_written_comes_back_the_same(tmp_path):
    folder = folder_with(tmp_path, heights_csv=spot_heights_text(site().heights))
    assert same_heights(spot_heights(folder), site().heights)
    assert folder.faults == []


def test_pandas_reads_the_same():
    table = pd.read_csv(io.StringIO(spot_heights_text(site().heights)))
    assert np.array_equal(table["z_m"], site().heights.z)


@pytest.mark.parametrize(
    ("rows", "row", "field"),
    [
        ("0,0,high\n1,0,5\n0,1,5", 2, "z_m"),
        ("0,0,9999\n1,0,5\n0,1,5", 2, "z_m"),
        ("0,0,5\n0,0,6\n0,1,5", 3, "x_m"),
        ("0,0,5\n1,1,6\n2,2,5", None, "x_m"),
        ("0,0,5\n1,1,6", None, "x_m"),
        ("", None, "x_m"),
    ],
)
def test_what_is_wrong_is_named(tmp_path, rows, row, field):
    folder = folder_with(tmp_path, heights_csv=f"x_m,y_m,z_m\n{rows}\n")
    assert spot_heights(folder) is None
    assert (row, field) in [(fault.row, fault.field) for fault in folder.faults]
