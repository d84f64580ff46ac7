"""The weather of a folder: hourly EPW, a daily record, or monthly normals."""

from dataclasses import dataclass

import numpy as np

from model.survey.folder import Folder
from model.survey.settings import SETTINGS, Settings, complete
from model.survey.weather import Weather
from model.survey.weather_csv import DAILY_FILE, MONTHLY_FILE, daily_table, monthly_table

EPW_FILE = "weather.epw"


@dataclass(frozen=True)
class WeatherReading:
    """A weather record, its file, and the station's latitude and longitude when the file says."""

    record: Weather
    file: str
    station: tuple[float, float] | None = None


def read_weather(folder: Folder, settings: Settings) -> WeatherReading | None:
    """The weather measured, None when there is none or it is at fault (noted)."""
    name = folder.one_of([EPW_FILE, DAILY_FILE, MONTHLY_FILE], "weather")
    if name is None:
        return None
    if name == DAILY_FILE:
        table = daily_table(folder)
    elif name == MONTHLY_FILE:
        table = monthly_table(folder)
    else:
        table = None
    general, chosen = complete(settings, ""), _chosen(settings)
    if table is None or general is None or chosen is None:
        return None
    altitude, site_altitude = float(chosen["station_altitude_m"]), float(general["altitude_m"])
    altitude = site_altitude if np.isnan(altitude) else altitude
    seed = int(chosen["seed"]) if name == MONTHLY_FILE else None
    kind = "daily" if name == DAILY_FILE else "monthly"
    return WeatherReading(Weather(kind, table, altitude, seed, int(chosen["years"])), name)


def _chosen(settings: Settings) -> dict | None:
    """The keys of [weather], each with its default when the table is left out."""
    if "weather" in settings:
        return complete(settings, "weather")
    return {attribute.name: attribute.default for attribute in SETTINGS["weather"]}
