"""The starter folder passes the check, explains itself and never overwrites."""

import csv
import tomllib

import pytest

from model.survey import SurveyFaults, new_folder, read_site, site_faults
from tests.model.survey.examples import starter_with_examples


def test_the_starter_passes_the_check_as_it_is(tmp_path):
    files = new_folder(tmp_path / "land")
    assert site_faults(tmp_path / "land") == []
    assert {path.name for path in (tmp_path / "land").iterdir()} == set(files)


def test_the_starter_passes_the_check_with_its_examples_in_use(tmp_path):
    site = read_site(starter_with_examples(tmp_path / "land"))
    assert set(site.absent) == {"wind"}


def test_invented_weather_is_not_read_until_its_file_is_renamed(tmp_path):
    new_folder(tmp_path / "land")
    assert set(read_site(tmp_path / "land").absent) == {"weather", "heights", "wind"}


def test_every_table_has_a_header_and_a_row_and_the_settings_comments(tmp_path):
    new_folder(tmp_path / "land")
    for path in (tmp_path / "land").glob("*.csv"):
        rows = list(csv.reader(path.open(encoding="utf-8")))
        assert len(rows) >= 2
        assert len({len(row) for row in rows}) == 1
    text = (tmp_path / "land" / "site.toml").read_text(encoding="utf-8")
    assert tomllib.loads(text)["name"]
    assert all("#" in line for line in text.splitlines() if "=" in line)


def test_a_folder_with_something_in_it_is_left_as_it_was(tmp_path):
    (tmp_path / "notes.txt").write_text("mine")
    with pytest.raises(SurveyFaults, match="choosing another name"):
        new_folder(tmp_path)
    with pytest.raises(SurveyFaults):
        new_folder(tmp_path / "notes.txt")
    assert [path.name for path in tmp_path.iterdir()] == ["notes.txt"]


def test_an_empty_folder_is_filled(tmp_path):
    new_folder(tmp_path)
    assert (tmp_path / "site.toml").exists()
