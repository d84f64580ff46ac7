"""site.toml is read with its faults and written so that tomllib reads the same."""

import tomllib

import pytest

from model.survey.settings import SETTINGS, complete, read_settings, settings_text
from tests.model.survey.examples import folder_with

GOOD = """name = "A"
latitude = 52.0
longitude = -3
altitude_m = 60
timezone = "Europe/London"

[soil]
texture = "loam"
depth_cm = 60
ph = 6.5
"""


def test_every_key_is_explained():
    assert all(one.meaning for attributes in SETTINGS.values() for one in attributes)


def test_what_is_left_out_takes_its_default(tmp_path):
    folder = folder_with(tmp_path, site_toml=GOOD)
    settings = read_settings(folder)
    assert folder.faults == []
    assert settings[""]["grid_m"] == 2.0
    assert settings["soil"]["fertility"] == "ordinary"
    assert "hub" not in settings


@pytest.mark.parametrize(
    ("before", "after", "row", "field"),
    [
        ('name = "A"', "name = 3", 1, "name"),
        ("latitude = 52.0", "latitude = 95", 2, "latitude"),
        ("latitude = 52.0", "latitude = nan", 2, "latitude"),
        ("latitude = 52.0", 'latitude = "north"', 2, "latitude"),
        ("latitude = 52.0", "latitude = true", 2, "latitude"),
        ("latitude = 52.0", "latitude = 1979-05-27", 2, "latitude"),
        ("longitude = -3\n", "", None, "longitude"),
        ("depth_cm = 60", "depth_cm = -1", 9, "depth_cm"),
        ("depth_cm = 60", "depht_cm = 60", 9, "depht_cm"),
        ("[soil]", "[sol]", 7, "sol"),
        ("[soil]", "soil = 4\n[hub]", 7, "soil"),
        ('texture = "loam"', 'texture = "lom"', 8, "texture"),
    ],
)
def test_a_fault_names_its_line_and_key(tmp_path, before, after, row, field):
    assert before in GOOD
    folder = folder_with(tmp_path, site_toml=GOOD.replace(before, after))
    read_settings(folder)
    assert (row, field) in [(fault.row, fault.field) for fault in folder.faults]


@pytest.mark.parametrize(
    "text", ["name = ", "[" * 5000, "a = " + "9" * 5000, "\ufffd=", "a=1\na=2"]
)
def test_broken_toml_is_one_fault(tmp_path, text):
    folder = folder_with(tmp_path, site_toml=text)
    assert read_settings(folder) == {}
    assert [fault.file for fault in folder.faults] == ["site.toml"]


def test_a_table_with_a_fault_is_not_complete(tmp_path):
    folder = folder_with(tmp_path, site_toml=GOOD.replace("ph = 6.5", "ph = 65"))
    settings = read_settings(folder)
    assert complete(settings, "soil") is None
    assert complete(settings, "") is not None
    assert complete(settings, "hub") is None


def test_tomllib_reads_what_is_written():
    settings = {
        "": {"name": 'Quote " and \\ and ü', "latitude": 1.5},
        "weather": {"seed": 3.0, "years": 30},
    }
    read = tomllib.loads(settings_text(settings))
    assert read["name"] == 'Quote " and \\ and ü'
    assert read["weather"] == {"seed": 3, "years": 30}
