"""The README of a survey folder names every file, column, kind and unit."""

import pytest

from model.survey import features_csv, heights_csv, lists, weather_csv
from model.survey.kinds import KINDS
from model.survey.reading import FILES
from model.survey.readme import readme_text
from model.survey.settings import SETTINGS

COLUMNS = (
    *features_csv.COLUMNS,
    *heights_csv.COLUMNS,
    *lists.SPOT_COLUMNS,
    *lists.OPTION_COLUMNS,
    *weather_csv.DAILY_COLUMNS,
    *weather_csv.MONTHLY_COLUMNS,
    *(one for attributes in SETTINGS.values() for one in attributes),
)


@pytest.mark.parametrize("name", [*FILES, *KINDS])
def test_every_file_and_kind_is_named(name):
    assert name in readme_text()


@pytest.mark.parametrize("column", COLUMNS, ids=lambda column: column.name)
def test_every_column_is_named_with_its_unit(column):
    text = readme_text()
    assert f"{column.name}:" in text or f"{column.name}*" in text or f"{column.name} [" in text
    assert column.unit in text
    assert all(choice in text for choice in column.choices)


def test_no_line_is_wider_than_a_window():
    assert max(map(len, readme_text().splitlines())) <= 100
