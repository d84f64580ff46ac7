"""Whether the files of a folder agree with one another."""

import shapely
from pyproj import Geod
from shapely.geometry import Point

from model.survey.attribute import Wrong
from model.survey.folder import Folder
from model.survey.heights import Plane
from model.survey.lists import SPOTS_FILE
from model.survey.settings import FILE
from model.survey.site import Site
from model.survey.weather_file import WeatherReading
from model.survey.whereabouts import wrong_seasons, wrong_zone

MOST_CELLS = 250_000
MOST_DIFFERENCE = 25.0  # m between altitude_m and the measured ground at the origin
FURTHEST_STATION = 500.0  # km


def note_disagreements(
    folder: Folder, site: Site, spot_rows: list[int], weather: WeatherReading | None
) -> None:
    """Note what each file may say by itself and all of them cannot say together."""
    _note_boundaries(folder, site)
    _note_spots_outside(folder, site, spot_rows)
    _note_too_many_cells(folder, site)
    _note_other_datum(folder, site)
    _note_elsewhere(folder, site, weather)
    if weather is not None and weather.station is not None:
        _note_far_station(folder, site, weather)


def _note_boundaries(folder: Folder, site: Site) -> None:
    first, *others = site.of_kind("boundary") or (None,)
    for other in others:
        file, _, number = other.origin.rpartition(", feature ")
        wrong = Wrong(
            f"a second boundary (the first is {first.origin})" if first else "",
            "one boundary",
            "joining them into one outline or deleting one",
        )
        folder.fault(file, int(number), "kind", wrong)


def _note_spots_outside(folder: Folder, site: Site, rows: list[int]) -> None:
    if not site.of_kind("boundary") or not site.spots:
        return
    places = [Point(spot.x, spot.y) for spot in site.spots]
    for spot, row, distance in zip(
        site.spots, rows, shapely.distance(places, site.boundary), strict=True
    ):
        if distance > 0:
            wrong = Wrong(
                f"{spot.name!r} {distance:.1f} m outside the boundary",
                "a spot on the land",
                "checking x_m (east) and y_m (north), or drawing the boundary further out",
            )
            folder.fault(SPOTS_FILE, row, "x_m", wrong)


def _note_too_many_cells(folder: Folder, site: Site) -> None:
    west, south, east, north = site.boundary.bounds
    cells = (east - west) * (north - south) / site.cell**2
    if cells > MOST_CELLS:
        coarser = ((east - west) * (north - south) / MOST_CELLS) ** 0.5
        wrong = Wrong(
            f"cells of {site.cell:g} m, {cells:,.0f} of them on this land",
            f"at most {MOST_CELLS:,} cells",
            f"writing grid_m = {max(1.0, coarser):.0f} or more, or drawing a smaller boundary",
        )
        folder.fault(FILE, None, "grid_m", wrong)


def _note_other_datum(folder: Folder, site: Site) -> None:
    if site.heights is None or isinstance(site.heights, Plane):
        return
    ground = float(site.heights.surface(0.0, 0.0))
    if not abs(ground - site.altitude) <= MOST_DIFFERENCE:
        wrong = Wrong(
            f"{site.altitude:g} where the heights file says {ground:.1f} at the origin",
            f"the two within {MOST_DIFFERENCE:g} m",
            "giving both above sea level, in metres",
        )
        folder.fault(FILE, None, "altitude_m", wrong)


def _note_elsewhere(folder: Folder, site: Site, weather: WeatherReading | None) -> None:
    """Note a latitude or longitude that its time zone or its seasons contradict."""
    wrong = wrong_zone(site)
    if wrong is None and weather is not None:
        wrong = wrong_seasons(site, weather.record)
    if wrong is not None:
        folder.fault(FILE, None, "latitude", wrong)


def _note_far_station(folder: Folder, site: Site, weather: WeatherReading) -> None:
    if weather.station is None:
        return
    there = (weather.station.longitude, weather.station.latitude)
    _, _, metres = Geod(ellps="WGS84").inv(site.longitude, site.latitude, *there)
    if metres > FURTHEST_STATION * 1000:
        wrong = Wrong(
            f"a station {metres / 1000:,.0f} km from the site",
            f"one within {FURTHEST_STATION:g} km",
            "taking the file of a nearer station, or checking latitude and longitude in site.toml",
        )
        folder.fault(weather.file, 1, "LOCATION", wrong)
