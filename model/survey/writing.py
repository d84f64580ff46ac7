"""A Site written into a folder, so that reading it gives the same site again."""

import filecmp
import shutil
import tempfile
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from pathlib import Path

from model.survey.contents import (
    fresh_features,
    fresh_heights,
    fresh_settings,
    fresh_weather,
    settings_of,
)
from model.survey.faults import SurveyFaults
from model.survey.heights import same_heights
from model.survey.heights_csv import FILE as SPOT_HEIGHTS_FILE
from model.survey.heights_tif import FILE as GEOTIFF_FILE
from model.survey.lists import OPTIONS_FILE, SPOTS_FILE, options_text, spots_text
from model.survey.reading import read_site
from model.survey.settings import FILE as SETTINGS_FILE
from model.survey.site import Site, same_features, same_site, same_spots
from model.survey.weather import same_weather
from model.survey.weather_file import KIND_OF_FILE

SET_ASIDE = "replaced"  # the folder within the survey folder for files of another format
FEATURE_FILES = tuple(
    f"features{part}.{ending}"
    for part in ("", "_points", "_lines", "_areas")
    for ending in ("geojson", "csv", "gpkg", "shp", "shx", "dbf", "prj", "cpg", "qix", "sbn", "sbx")
)


@dataclass(frozen=True)
class Part:
    """What some files of a folder hold: their names, their comparison, their new contents."""

    files: tuple[str, ...]
    is_same: Callable[[Site, Site], bool]
    fresh: Callable[[Site, Path], dict[str, bytes]]


PARTS = (
    Part(
        (SETTINGS_FILE,), lambda one, other: settings_of(one) == settings_of(other), fresh_settings
    ),
    Part(
        FEATURE_FILES,
        lambda one, other: _same_origin(one, other) and same_features(one.features, other.features),
        fresh_features,
    ),
    Part(
        (GEOTIFF_FILE, SPOT_HEIGHTS_FILE),
        lambda one, other: _same_origin(one, other) and same_heights(one.heights, other.heights),
        fresh_heights,
    ),
    Part(
        tuple(KIND_OF_FILE),
        lambda one, other: same_weather(one.weather, other.weather),
        fresh_weather,
    ),
    Part(
        (SPOTS_FILE,),
        lambda one, other: same_spots(one.spots, other.spots),
        lambda site, _: {SPOTS_FILE: spots_text(site.spots).encode()} if site.spots else {},
    ),
    Part(
        (OPTIONS_FILE,),
        lambda one, other: one.options == other.options,
        lambda site, _: {OPTIONS_FILE: options_text(site.options).encode()} if site.options else {},
    ),
)


def write_site(site: Site, folder: str | Path) -> None:
    """Write a site; `read_site` then gives the same site (`same_site`: places within 1 mm).

    A part that has not changed keeps its file byte for byte, comments and all. A changed part is
    written as features.geojson (WGS 84) or, where features.csv stood, that; as heights.tif or
    heights.csv; as weather.epw, weather_daily.csv or weather_monthly.csv. A file that is no longer
    wanted is moved to the folder "replaced" within, never deleted. All is first written beside
    and read back; only then does each file take its place at one stroke.

    Files that are no part of the survey (study.toml, own catalogue rows) are left alone, and are
    not brought along from another folder.

    Raises
    ------
    SurveyFaults
        When the site could not be read back; the folder is then as it was.
    ValueError
        When a text or figure would come back changed, such as a name that begins with a blank.
    """
    folder = Path(folder)
    folder.mkdir(parents=True, exist_ok=True)
    sources = [source for source in map(_standing, _folders(site, folder)) if source is not None]
    with tempfile.TemporaryDirectory(prefix=".writing-", dir=folder) as beside:
        new = Path(beside)
        for part in PARTS:
            _write_part(site, part, new, (folder, sources))
            if part is PARTS[0]:
                read_site(
                    new
                )  # places in degrees can only be written about an origin that is right
        if not same_site(read_site(new), site):
            raise ValueError(
                "the site would not come back the same: every name and note must be one line of "
                "text that neither begins nor ends with a blank"
            )
        _take_places(new, folder)


def _folders(site: Site, folder: Path) -> list[Path]:
    elsewhere = site.folder is not None and site.folder.resolve() != folder.resolve()
    return [folder, site.folder] if elsewhere and site.folder is not None else [folder]


def _standing(folder: Path) -> Site | None:
    """The site that a folder holds now, None when it holds none that can be read."""
    if not (folder / SETTINGS_FILE).is_file():
        return None
    try:
        return read_site(folder)
    except SurveyFaults:
        return None


def _same_origin(one: Site, other: Site) -> bool:
    """Whether a place in degrees is the same place in metres for both."""
    return (one.latitude, one.longitude) == (other.latitude, other.longitude)


def _write_part(site: Site, part: Part, new: Path, old: tuple[Path, list[Site]]) -> None:
    """Write a part's files beside: as they stand somewhere, if they say the same, or afresh."""
    folder, sources = old
    for source in sources:
        files = _files(source.folder, part.files)
        if files and part.is_same(site, source):
            for file in files:
                shutil.copyfile(file, new / file.name)
            return
    for name, content in part.fresh(site, folder).items():
        (new / name).write_bytes(content)


def _files(folder: Path | None, names: Iterable[str]) -> list[Path]:
    return [folder / name for name in names if (folder / name).is_file()] if folder else []


def _take_places(new: Path, folder: Path) -> None:
    """Move every changed file to its place; set aside those that are no longer wanted."""
    wanted = {file.name for file in new.iterdir()}
    for name in sorted(wanted):
        if not _is_unchanged(new / name, folder / name):
            (new / name).replace(folder / name)
    for part in PARTS:
        for file in _files(folder, part.files):
            if file.name not in wanted:
                file.replace(_free_name(folder / SET_ASIDE, file.name))


def _is_unchanged(new: Path, place: Path) -> bool:
    return place.is_file() and filecmp.cmp(new, place, shallow=False)


def _free_name(folder: Path, name: str) -> Path:
    """A path that is not taken: name, then 2-name, 3-name."""
    folder.mkdir(exist_ok=True)
    number, path = 1, folder / name
    while path.exists():
        number += 1
        path = folder / f"{number}-{name}"
    return path
