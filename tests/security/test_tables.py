"""No table that the command line writes begins a formula, whatever spots and trees are called."""

import csv

import pytest

from dashboard.__main__ import CLEAN, main
from tests.security.hostile import FORMULA

# OWASP, "CSV Injection", from memory, as in tests/model/test_csv_text.py.
BEGINS = ("=", "+", "-", "@", "\t", "\r", "\n", "\uff1d", "\uff0b", "\uff0d", "\uff20")


@pytest.mark.parametrize("command", ["assess", "review"])
def test_words_are_disarmed_and_figures_stay_figures(command, folder, tmp_path):
    assert main([command, str(folder), "--out", str(tmp_path)]) == CLEAN
    cells = []
    for path in sorted(tmp_path.glob("*.csv")):
        with path.open(encoding="utf-8", newline="") as file:
            cells += [cell for row in csv.reader(file) for cell in row]
    assert f"'{FORMULA}" in cells
    for cell in cells:
        if cell.startswith(BEGINS):
            float(cell)
    assert any(cell.replace(".", "", 1).isdecimal() for cell in cells)
