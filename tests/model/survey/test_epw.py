"""EPW files are read as pvlib reads them, and their faults named."""

import numpy as np
import pandas as pd
import pytest
from pvlib.iotools import read_epw

from model.survey.epw import epw_weather
from tests.model.survey import epw_example
from tests.model.survey.examples import folder_with

PVLIB_NAMES = {
    "temperature": "temp_air",
    "humidity": "relative_humidity",
    "wind": "wind_speed",
    "wind_direction": "wind_direction",
    "radiation": "ghi",
    "rain": "liquid_precipitation_depth",
}


def read(tmp_path, text):
    folder = folder_with(tmp_path, weather_epw=text)
    return epw_weather(folder), folder.faults


def faults_with(tmp_path, changes):
    rows = epw_example.lines()
    for number, change in changes.items():
        cells = rows[number].split(",")
        for place, value in change.items():
            cells[place] = value
        rows[number] = ",".join(cells)
    return read(tmp_path, epw_example.text(rows))


def test_every_hour_is_as_pvlib_reads_it(tmp_path):
    # pvlib.iotools.read_epw, an independent reader; it too labels hour 1 as 00:00
    (station, table), faults = read(tmp_path, epw_example.text())
    assert faults == []
    theirs, metadata = read_epw(tmp_path / "weather.epw")
    for ours, name in PVLIB_NAMES.items():
        assert np.array_equal(table[ours], theirs[name])
    assert (table.index.month == theirs.index.month).all()
    assert (table.index.hour == theirs.index.hour).all()
    assert (station.latitude, station.longitude) == (metadata["latitude"], metadata["longitude"])
    assert station.altitude == metadata["altitude"]


def test_months_of_several_years_become_one_year_of_hours(tmp_path):
    (_, table), _ = read(tmp_path, epw_example.text())
    assert len(table) == 8760
    assert len(table.index.year.unique()) == 1
    assert (np.diff(table.index) == np.timedelta64(1, "h")).all()
    assert table.index.tz is None


def test_the_hours_of_one_real_year_keep_it(tmp_path):
    (_, table), _ = read(tmp_path, epw_example.text(epw_example.lines(years=(2003,))))
    assert table.index[0] == pd.Timestamp("2003-01-01 00:00")
    assert table.index[-1] == pd.Timestamp("2003-12-31 23:00")


def test_a_leap_year_without_its_leap_day_is_no_fault(tmp_path):
    (_, table), faults = read(tmp_path, epw_example.text(epw_example.lines(years=(2004,))))
    assert faults == []
    assert set(table.index.year) == {2004}


def test_what_the_file_does_not_have_is_left_out_and_single_gaps_are_not_known(tmp_path):
    rows = [
        line.replace(",0.2,0,1", ",0.2,999,99").replace(",0.2,0.4,1", ",0.2,999,99")
        for line in epw_example.lines()
    ]
    cells = rows[5].split(",")
    cells[21] = "999"
    rows[5] = ",".join(cells)
    (_, table), faults = read(tmp_path, epw_example.text(rows))
    assert faults == []
    assert "rain" not in table
    assert table["wind"].isna().sum() == 1


def test_runs_of_missing_or_impossible_hours_are_one_fault_each(tmp_path):
    changes = {number: {6: "99.9"} for number in (10, 11, 12)} | {50: {6: "-80"}, 60: {8: "wet"}}
    reading, faults = faults_with(tmp_path, changes)
    assert reading is None
    assert [(fault.row, fault.field) for fault in faults] == [
        (19, "temperature"),
        (59, "temperature"),
        (69, "humidity"),
    ]
    assert "2 hours after it" in faults[0].found


@pytest.mark.parametrize("change", [{3: "30"}, {1: "13"}, {2: "x"}, {3: "9"}, {0: "nan"}])
def test_an_hour_out_of_step_is_named(tmp_path, change):
    reading, faults = faults_with(tmp_path, {100: change})
    assert reading is None
    assert (faults[0].row, faults[0].field) == (109, "hour")


@pytest.mark.parametrize(
    ("text", "row"),
    [
        ("nothing of the kind\n", 1),
        (epw_example.HEADER, 1),
        (epw_example.text(epw_example.lines()[:5000]), 1),
        (epw_example.text().replace("52.10", "north"), 1),
        (epw_example.text([*epw_example.lines()[:-1], "2003,12,31,24"]), 8768),
    ],
)
def test_what_is_no_epw_is_named(tmp_path, text, row):
    reading, faults = read(tmp_path, text)
    assert reading is None
    assert faults[0].row == row
