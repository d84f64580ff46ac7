"""An hourly record written as EPW is read back the same, by us and by pvlib."""

import numpy as np
import pandas as pd
from pvlib.iotools import read_epw

from model.survey.epw import Station, epw_weather
from model.survey.epw_text import epw_text
from tests.model.survey.examples import folder_with

HOURS = pd.date_range("2003-01-01", periods=8760, freq="h")
STATION = Station(52.1, -3.2, 71.5)


def record():
    generator = np.random.default_rng(3)
    table = pd.DataFrame({"temperature": generator.normal(9, 6, 8760)}, index=HOURS)
    table["wind"] = generator.gamma(2, 2, 8760)
    table.loc[HOURS[7], "wind"] = np.nan
    return table


def test_every_digit_comes_back(tmp_path):
    folder = folder_with(tmp_path, weather_epw=epw_text(record(), STATION, 'A "b", c', 0))
    station, table = epw_weather(folder)
    assert station == STATION
    pd.testing.assert_frame_equal(table[["temperature", "wind"]], record(), check_freq=False)


def test_pvlib_reads_the_same(tmp_path):
    path = tmp_path / "weather.epw"
    path.write_text(epw_text(record(), STATION, "Somewhere", 5.5))
    theirs, metadata = read_epw(path)
    assert np.array_equal(theirs["temp_air"], record()["temperature"])
    assert theirs["wind_speed"].iloc[7] == 999
    assert (metadata["TZ"], metadata["altitude"]) == (5.5, 71.5)
