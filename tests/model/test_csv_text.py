"""Words that a spreadsheet would reckon with are written as words and read back as typed."""

import csv
import io

import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.csv_text import armed, csv_text, disarmed

# OWASP, "CSV Injection" (owasp.org/www-community/attacks/CSV_Injection), from memory: cells that
# begin with = + - @, a tab, a carriage return or a line feed, and the full-width forms of the four.
DANGEROUS = ("=", "+", "-", "@", "\t", "\r", "\n", "\uff1d", "\uff0b", "\uff0d", "\uff20")
WORDS = st.text("'=+-@\uff1dA1.e \t", max_size=8)


@pytest.mark.parametrize("sign", DANGEROUS)
def test_a_cell_that_begins_with_a_sign_is_disarmed(sign):
    assert disarmed(f"{sign}HYPERLINK(1)") == f"'{sign}HYPERLINK(1)"


@pytest.mark.parametrize("cell", ["-2", "+1.5e3", "-.5", "Home field", "", "'tis the gate"])
def test_numbers_and_plain_words_stay_as_they_are(cell):
    assert disarmed(cell) == cell


@given(WORDS)
def test_every_word_comes_back_as_it_was_typed(word):
    assert armed(disarmed(word)) == word


@given(WORDS)
def test_no_written_word_begins_a_formula(word):
    written = disarmed(word)
    if written.startswith(DANGEROUS):
        float(written)


def test_every_cell_of_a_table_is_disarmed_and_figures_stay():
    table = pd.DataFrame({"word": ["=1+1", "-2"], "figure": [-1.5, float("nan")]})
    assert list(csv.reader(io.StringIO(csv_text(table)))) == [
        ["word", "figure"], ["'=1+1", "-1.5"], ["-2", ""],
    ]  # fmt: skip
