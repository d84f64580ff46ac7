"""What is not drawn of a site, changed as typed: place, soil, heights and monthly weather."""

import tempfile
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any
from zoneinfo import available_timezones

import pandas as pd

from model.language import _
from model.survey import heights_csv, weather_csv
from model.survey.attribute import Attribute, Value, Wrong, checked_value
from model.survey.faults import Fault, SurveyFaults, nearest_name
from model.survey.folder import Folder
from model.survey.heights import Plane, SpotHeights
from model.survey.reading import ABSENT
from model.survey.settings import FILE, SETTINGS
from model.survey.site import Site, Soil
from model.survey.weather import Weather
from model.survey.weather_csv import MONTHLY_COLUMNS

GENERAL = ("name", "latitude", "longitude", "altitude_m", "timezone", "grid_m")
_FIELD = {"altitude_m": "altitude", "grid_m": "cell"}
YEARS, SEED = 30, 1


def general_of(site: Site) -> dict[str, Value]:
    """Name, place, time zone and grid of a site, by the keys of site.toml."""
    return {key: getattr(site, _FIELD.get(key, key)) for key in GENERAL}


def checked_table(table: str, raw: Mapping[str, Any]) -> dict[str, Value]:
    """The values of a table of site.toml as typed; SurveyFaults with all that is wrong."""
    values, faults = {}, []
    for attribute in SETTINGS[table]:
        value = checked_value(attribute, raw.get(attribute.name))
        if isinstance(value, Wrong):
            faults.append(Fault(FILE, None, attribute.name, *value))
        else:
            values[attribute.name] = value
    if faults:
        raise SurveyFaults(faults)
    return values


def attribute_of(table: str, name: str) -> Attribute | None:
    """A key of a table of site.toml, None when it has none of that name."""
    return next((one for one in SETTINGS[table] if one.name == name), None)


def with_general(site: Site, raw: Mapping[str, Any]) -> Site:
    """The site with another name, place, time zone or grid; SurveyFaults as `checked_table`."""
    values = checked_table("", {**general_of(site), **raw})
    zones = available_timezones()
    if zones and values["timezone"] not in zones:
        expected = "the name of a time zone such as Europe/Dublin"
        mend = nearest_name(str(values["timezone"]), zones)
        raise SurveyFaults([Fault(FILE, None, "timezone", str(values["timezone"]), expected, mend)])
    return replace(
        site,
        name=str(values["name"]),
        latitude=float(values["latitude"]),
        longitude=float(values["longitude"]),
        altitude=float(values["altitude_m"]),
        timezone=str(values["timezone"]),
        cell=float(values["grid_m"]),
    )


def new_site(raw: Mapping[str, Any]) -> Site:
    """A site of which nothing is known but its name and place; SurveyFaults as `checked_table`."""
    absent = {topic: _(sentence) for topic, sentence in ABSENT.items()}
    return with_general(Site("", 0.0, 0.0, 0.0, "UTC", absent=absent), raw)


def with_soil(site: Site, raw: Mapping[str, Any]) -> Site:
    """The site with another general soil; from then on it counts as known."""
    off = {f"{figure}_plus_minus": value for figure, value in site.soil_plus_minus.items()}
    values = checked_table("soil", {**vars(site.soil), **off, **raw})
    soil = Soil(
        str(values["texture"]),
        str(values["fertility"]),
        float(values["depth_cm"]),
        float(values["ph"]),
    )
    said = {name: float(value) for name, value in values.items() if name.endswith("_plus_minus")}
    known = {name.removesuffix("_plus_minus"): off for name, off in said.items() if off == off}  # noqa: PLR0124 -- NaN
    return replace(site, soil=soil, soil_plus_minus=known, absent=_without(site, "soil"))


def with_slope(site: Site, raw: Mapping[str, Any]) -> Site:
    """The site with one slope in the place of the heights there were."""
    values = checked_table("heights", raw)
    plane = Plane(float(values["slope_percent"]), float(values["aspect_deg"]), site.altitude)
    return replace(site, heights=plane, absent=_without(site, "heights"))


def with_spot_heights(site: Site, text: str) -> Site:
    """The site with heights pasted as x, y, z a line; SurveyFaults by line."""
    heights = _read(heights_csv.FILE, _headed(text, heights_csv.COLUMNS), heights_csv.spot_heights)
    if not isinstance(heights, SpotHeights):
        raise TypeError("heights.csv gave no heights")
    return replace(site, heights=heights, absent=_without(site, "heights"))


def with_months(site: Site, text: str) -> Site:
    """The site with twelve monthly normals pasted; SurveyFaults by line."""
    table = _read(
        weather_csv.MONTHLY_FILE, _headed(text, MONTHLY_COLUMNS), weather_csv.monthly_table
    )
    if not isinstance(table, pd.DataFrame):
        raise TypeError("weather_monthly.csv gave no weather")
    old = site.weather
    altitude = old.station_altitude if old is not None else site.altitude
    seed = SEED if old is None or old.seed is None else old.seed
    weather = Weather("monthly", table, altitude, seed, YEARS if old is None else old.years)
    return replace(site, weather=weather, absent=_without(site, "weather"))


def _headed(text: str, columns: tuple[Attribute, ...]) -> str:
    """Pasted lines as a CSV file: tabs and semicolons become commas, a header stands on top."""
    lines = [line.strip() for line in text.strip().splitlines()]
    lines = [line.replace("\t", ",").replace(";", ",") for line in lines if line]
    names = [column.name for column in columns]
    width = max((line.count(",") + 1 for line in lines), default=len(names))
    if not lines or lines[0].split(",")[0].strip().strip('"') != names[0]:
        lines.insert(0, ",".join(names[: max(width, 1)]))
    return "\n".join(lines) + "\n"


def _read(name: str, text: str, read: Any) -> Any:
    """What a reader of the folder makes of a text; its faults are raised."""
    with tempfile.TemporaryDirectory(prefix="treestead-") as beside:
        path = Path(beside)
        (path / name).write_text(text, encoding="utf-8")
        folder = Folder(path)
        found = read(folder)
        if folder.faults:
            raise SurveyFaults(folder.faults)
        return found


def _without(site: Site, topic: str) -> dict[str, str]:
    return {name: why for name, why in site.absent.items() if name != topic}
