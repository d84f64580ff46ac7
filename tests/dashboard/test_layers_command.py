"""The command that writes land layers for a GIS, in coarser cells and in tiles."""

import numpy as np
import pytest
import rasterio

from dashboard.__main__ import main
from model.survey.starter import new_folder


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    path = tmp_path_factory.mktemp("starter") / "field"
    new_folder(path)
    return str(path)


def slopes(folder):
    with rasterio.open(folder / "slope.tif") as raster:
        return raster.read(1), raster.res


def test_tiles_and_cells_are_asked_for_in_words(folder, tmp_path, capsys):
    asked = ["layers", folder, "--cell", "12", "--out"]
    assert main([*asked, str(tmp_path / "whole")]) == 0
    assert main([*asked, str(tmp_path / "tiled"), "--tiles", "9"]) == 0
    (whole, size), (tiled, same) = slopes(tmp_path / "whole"), slopes(tmp_path / "tiled")
    assert size == same == (12.0, 12.0)
    np.testing.assert_array_equal(tiled, whole)
    capsys.readouterr()


def test_wrong_cells_and_tiles_are_refused(folder, tmp_path, capsys):
    asked = ["layers", folder, "--out", str(tmp_path)]
    assert main([*asked, "--cell", "thin"]) == 2
    assert "expected metres from 0.25 to 50" in capsys.readouterr().err
    assert main([*asked, "--tiles", "0"]) == 2
    assert "0 cells a side" in capsys.readouterr().err
