"""A survey folder read into a Site, or every fault in it."""

import math
from contextlib import suppress
from dataclasses import replace
from functools import cache
from pathlib import Path
from zoneinfo import available_timezones

from model.language import _, marked
from model.survey.agreement import note_disagreements
from model.survey.attribute import Wrong
from model.survey.faults import Fault, SurveyFaults, nearest_name, shown
from model.survey.features_csv import FILE as CSV_FILE
from model.survey.features_file import GEOJSON_FILE, GEOPACKAGE_FILE, SHAPEFILES, read_features
from model.survey.folder import Folder
from model.survey.frame import Frame
from model.survey.heights_csv import FILE as SPOT_HEIGHTS_FILE
from model.survey.heights_file import GEOTIFF_FILE, read_heights
from model.survey.lists import OPTIONS_FILE, SPOTS_FILE, options, spots
from model.survey.plus_minus import SOIL_PLUS_MINUSES, SUFFIX
from model.survey.settings import FILE, Settings, complete, read_settings
from model.survey.site import Site, Soil
from model.survey.weather import Weather
from model.survey.weather_file import KIND_OF_FILE, read_weather
from model.survey.wind import POINTS, Wind

FILES = (
    FILE,
    *(GEOJSON_FILE, GEOPACKAGE_FILE, CSV_FILE, *SHAPEFILES),
    *(GEOTIFF_FILE, SPOT_HEIGHTS_FILE),
    *KIND_OF_FILE,
    *(SPOTS_FILE, OPTIONS_FILE),
)
ABSENT = {
    "heights": marked(
        "no heights file: the ground is taken as level, so slope and hills are not judged"
    ),
    "weather": marked("no weather file: chill, heat, cold and rain are not judged"),
    "features": marked("no features file: nothing is known to stand on the land or beside it"),
    "spots": marked("no spots.csv: no peg is judged by its name, only the cells of the grid"),
    "options": marked(
        "no options.csv: there is no short list, every tree of the catalogue is open"
    ),
    "hub": marked("no [hub] in site.toml: walking time is not judged"),
    "boundary": marked("no boundary drawn: the land within 20 m of all that is drawn is judged"),
    "wind": marked(
        "no wind in an hourly weather file and no [wind] in site.toml: wind is not judged"
    ),
    "soil": marked("no [soil] in site.toml: ordinary loam 60 cm deep with pH 6.5 is assumed"),
}


def read_site(folder: str | Path) -> Site:
    """The site that a folder describes.

    Raises
    ------
    SurveyFaults
        With every fault of the folder at once; nothing else is raised for bad input.
    """
    site, faults = _site_and_faults(Path(folder))
    if site is None or faults:
        raise SurveyFaults(faults)
    return site


def site_as_before(folder: str | Path, before: Site) -> Site:
    """The site of a folder whose survey files are those `before` was read from.

    Only the short list, which is no part of the survey, is read anew. Raises SurveyFaults.
    """
    read = Folder(Path(folder))
    short_list = options(read) if read.present([OPTIONS_FILE]) else ()
    if read.faults:
        raise SurveyFaults(read.faults)
    return replace(before, options=short_list, folder=read.path)


def site_faults(folder: str | Path) -> list[Fault]:
    """Every fault of a folder at once, by file and row; empty when it can be read."""
    return _site_and_faults(Path(folder))[1]


def _site_and_faults(path: Path) -> tuple[Site | None, list[Fault]]:
    if not path.is_dir():
        found = "a file" if path.exists() else "no such folder"
        wrong = Wrong(found, "a survey folder", "running: treestead new FOLDER")
        folder = Folder(path)
        folder.fault(path.name, None, "", wrong)
        return None, folder.faults
    folder, site = Folder(path), None
    with suppress(SurveyFaults):  # when there are too many faults to read on: they are noted
        folder.note_misspelt(FILES)
        site = _site(folder, read_settings(folder))
    order = {fault: place for place, fault in enumerate(folder.faults)}
    faults = sorted(order, key=lambda fault: (fault.file, fault.row or 0, order[fault]))
    return site, faults


def _site(folder: Folder, settings: Settings) -> Site | None:
    """The site, None when its place is not known; every file is checked all the same."""
    general = complete(settings, "")
    frame = Frame(float(general["latitude"]), float(general["longitude"])) if general else None
    if general is not None:
        _note_unknown_timezone(folder, str(general["timezone"]))
    features = read_features(folder, frame)
    heights = read_heights(folder, settings, frame)
    weather = read_weather(folder, settings)
    pegged = spots(folder) if folder.present([SPOTS_FILE]) else ()
    short_list = options(folder) if folder.present([OPTIONS_FILE]) else ()
    hub = complete(settings, "hub")
    soil = complete(settings, "soil")
    wind = complete(settings, "wind")
    if general is None:
        return None
    site = Site(
        name=str(general["name"]),
        latitude=float(general["latitude"]),
        longitude=float(general["longitude"]),
        altitude=float(general["altitude_m"]),
        timezone=str(general["timezone"]),
        cell=float(general["grid_m"]),
        hub=(float(hub["x_m"]), float(hub["y_m"])) if hub else None,
        soil=_soil(soil) if soil else Soil(),
        soil_plus_minus=_plus_minuses(soil) if soil else {},
        wind=_wind(wind) if wind else None,
        features=features,
        heights=heights,
        weather=weather.record if weather else None,
        spots=tuple(spot for spot, _ in pegged),
        options=short_list,
        folder=folder.path,
    )
    note_disagreements(folder, site, [row for _, row in pegged], weather)
    return replace(site, absent=_absent(site, soil is not None))


def _soil(values: dict) -> Soil:
    return Soil(
        str(values["texture"]),
        str(values["fertility"]),
        float(values["depth_cm"]),
        float(values["ph"]),
    )


def _plus_minuses(values: dict) -> dict[str, float]:
    """How far the soil's figures may be off, those that were said."""
    said = {one.name: float(values[one.name]) for one in SOIL_PLUS_MINUSES}
    return {name.removesuffix(SUFFIX): off for name, off in said.items() if not math.isnan(off)}


def _wind(values: dict) -> Wind:
    return Wind(float(values["speed_m_s"]), tuple(float(values[point]) for point in POINTS))


def _absent(site: Site, soil_is_known: bool) -> dict[str, str]:
    """The sentence of each topic that nothing is known of."""
    known = {
        "heights": site.heights is not None,
        "weather": site.weather is not None,
        "features": bool(site.features),
        "spots": bool(site.spots),
        "options": bool(site.options),
        "hub": site.hub is not None,
        "boundary": bool(site.of_kind("boundary")),
        "wind": site.wind is not None or _has_wind(site.weather),
        "soil": soil_is_known,
    }
    return {topic: _(sentence) for topic, sentence in ABSENT.items() if not known[topic]}


def _has_wind(weather: Weather | None) -> bool:
    """Whether a weather record says how hard the wind blows and from where."""
    return weather is not None and {"wind", "wind_direction"} <= set(weather.table)


def _note_unknown_timezone(folder: Folder, name: str) -> None:
    known = _timezones()
    if name in known or not known:  # an empty table: this computer has none to check against
        return
    expected = "the name of a time zone such as Europe/Dublin"
    folder.fault(FILE, None, "timezone", Wrong(shown(name), expected, nearest_name(name, known)))


@cache
def _timezones() -> set[str]:
    """Kept, as finding them means walking through a folder of the computer's own."""
    return available_timezones()
