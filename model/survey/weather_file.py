"""The weather of a folder: hourly EPW, a daily record, or monthly normals."""

from dataclasses import dataclass

import numpy as np
import pandas as pd

from model.survey.epw import FILE as EPW_FILE
from model.survey.epw import Station, epw_weather
from model.survey.folder import Folder
from model.survey.settings import SETTINGS, Settings, complete
from model.survey.weather import Weather
from model.survey.weather_csv import DAILY_FILE, MONTHLY_FILE, daily_table, monthly_table

KIND_OF_FILE = {EPW_FILE: "hourly", DAILY_FILE: "daily", MONTHLY_FILE: "monthly"}
DEFAULT_SEED = 1


@dataclass(frozen=True)
class WeatherReading:
    """A weather record, its file, and the station when the file says where it is."""

    record: Weather
    file: str
    station: Station | None = None


def read_weather(folder: Folder, settings: Settings) -> WeatherReading | None:
    """The weather measured, None when there is none or it is at fault (noted)."""
    name = folder.one_of([EPW_FILE, DAILY_FILE, MONTHLY_FILE], "weather")
    if name is None:
        return None
    station, table = _station_and_table(folder, name)
    general, chosen = complete(settings, ""), _chosen(settings)
    if table is None or general is None or chosen is None:
        return None
    given, own = float(chosen["station_altitude_m"]), float(general["altitude_m"])
    altitudes = [given, station.altitude if station else np.nan, own]
    altitude = next(one for one in altitudes if not np.isnan(one))
    seed = float(chosen["seed"])
    if np.isnan(seed):
        seed = DEFAULT_SEED if name == MONTHLY_FILE else np.nan
    record = Weather(
        KIND_OF_FILE[name],
        table,
        altitude,
        None if np.isnan(seed) else int(seed),
        int(chosen["years"]),
    )
    known = station is not None and not np.isnan([station.latitude, station.longitude]).any()
    return WeatherReading(record, name, station if known else None)


def _station_and_table(folder: Folder, name: str) -> tuple[Station | None, pd.DataFrame | None]:
    if name == EPW_FILE:
        return epw_weather(folder) or (None, None)
    return None, daily_table(folder) if name == DAILY_FILE else monthly_table(folder)


def _chosen(settings: Settings) -> dict | None:
    """The keys of [weather], each with its default when the table is left out."""
    if "weather" in settings:
        return complete(settings, "weather")
    return {attribute.name: attribute.default for attribute in SETTINGS["weather"]}
