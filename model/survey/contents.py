"""What the files of a survey folder hold for a site, part by part."""

from datetime import UTC, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from model.survey.attribute import Value
from model.survey.epw import Station
from model.survey.epw_text import epw_text
from model.survey.features_csv import FILE as CSV_FILE
from model.survey.features_csv import csv_text, fits_csv
from model.survey.features_file import GEOJSON_FILE
from model.survey.geojson import geojson_text
from model.survey.heights import Plane, RasterHeights, SpotHeights
from model.survey.heights_csv import FILE as SPOT_HEIGHTS_FILE
from model.survey.heights_csv import spot_heights_text
from model.survey.heights_tif import FILE as GEOTIFF_FILE
from model.survey.heights_tif import geotiff_bytes
from model.survey.plus_minus import SUFFIX
from model.survey.settings import FILE as SETTINGS_FILE
from model.survey.settings import Settings, settings_text
from model.survey.site import Site, Soil
from model.survey.weather_csv import DAILY_FILE, MONTHLY_FILE, daily_text, monthly_text
from model.survey.weather_file import EPW_FILE
from model.survey.wind import POINTS


def settings_of(site: Site) -> Settings:
    """The tables of site.toml; what was only assumed of the soil is not written as known."""
    settings: Settings = {
        "": {
            "name": site.name,
            "latitude": site.latitude,
            "longitude": site.longitude,
            "altitude_m": site.altitude,
            "timezone": site.timezone,
            "grid_m": site.cell,
        }
    }
    if site.hub is not None:
        settings["hub"] = {"x_m": round(site.hub[0], 4), "y_m": round(site.hub[1], 4)}
    if "soil" not in site.absent or site.soil != Soil():
        off = {figure + SUFFIX: value for figure, value in site.soil_plus_minus.items()}
        settings["soil"] = vars(site.soil) | off
    if site.wind is not None:
        shares = dict(zip(POINTS, site.wind.shares, strict=True))
        settings["wind"] = {"speed_m_s": site.wind.speed, **shares}
    if isinstance(site.heights, Plane):
        settings["heights"] = {
            "slope_percent": site.heights.slope_percent,
            "aspect_deg": site.heights.aspect_deg,
        }
    if site.weather is not None:
        seed: dict[str, Value] = {} if site.weather.seed is None else {"seed": site.weather.seed}
        settings["weather"] = {
            **seed,
            "years": site.weather.years,
            "station_altitude_m": site.weather.station_altitude,
        }
    return settings


def fresh_settings(site: Site, _folder: Path) -> dict[str, bytes]:
    """site.toml."""
    return {SETTINGS_FILE: settings_text(settings_of(site)).encode()}


def fresh_features(site: Site, folder: Path) -> dict[str, bytes]:
    """features.csv where there is one that can hold the features, else features.geojson."""
    if not site.features:
        return {}
    if (folder / CSV_FILE).exists() and fits_csv(site.features):
        return {CSV_FILE: csv_text(site.features).encode()}
    return {GEOJSON_FILE: geojson_text(site.features, site.frame).encode()}


def fresh_heights(site: Site, _folder: Path) -> dict[str, bytes]:
    """heights.csv or heights.tif; one slope stands in site.toml."""
    if isinstance(site.heights, SpotHeights):
        return {SPOT_HEIGHTS_FILE: spot_heights_text(site.heights).encode()}
    if isinstance(site.heights, RasterHeights):
        return {GEOTIFF_FILE: geotiff_bytes(site.heights, site.frame)}
    return {}


def fresh_weather(site: Site, _folder: Path) -> dict[str, bytes]:
    """weather_monthly.csv, weather_daily.csv or weather.epw."""
    if site.weather is None:
        return {}
    table = site.weather.table
    if site.weather.kind == "monthly":
        return {MONTHLY_FILE: monthly_text(table).encode()}
    if site.weather.kind == "daily":
        return {DAILY_FILE: daily_text(table).encode()}
    station = Station(site.latitude, site.longitude, site.weather.station_altitude)
    return {EPW_FILE: epw_text(table, station, site.name, _hours_from_utc(site)).encode()}


def _hours_from_utc(site: Site) -> float:
    """Standard time (no summer time) against UTC [h]; by the sun when the zone is not known."""
    try:
        moment = datetime(2001, 1, 1, tzinfo=UTC).astimezone(ZoneInfo(site.timezone))
    except (ZoneInfoNotFoundError, ValueError):
        return round(site.longitude / 15)
    standard = (moment.utcoffset() or timedelta()) - (moment.dst() or timedelta())
    return standard / timedelta(hours=1)
