"""Water for the first two summers: what each soil lacks, and how it is brought."""

from dataclasses import dataclass

import numpy as np
import shapely

from model.ground.obstacles import described
from model.ground.places import Places
from model.ground.soil import TEXTURES, Soils
from model.ground.walk import walk_of
from model.ground.weather_years import DAYS, WeatherYears
from model.land.soil_texture import soil_water_of
from model.land.water_balance import (
    POME_BARE,
    crop_coefficient,
    median_and_dry,
    root_zone,
    rooting_depth,
)
from model.survey.site import Site

SUMMERS = 2
WET_SEASON = {True: 273, False: 90}  # first day of the balance, north and south: a full soil
GROWTH = 79 - 273 + DAYS  # 20 March, counted from there; the south is half a year later
SOURCES = ("tap", "tank")


@dataclass(frozen=True)
class Watering:
    """Water that a young tree lacks, and where it comes from.

    `lacking` (summer, 2, place) [mm = litres a square metre] in a median and in a dry year (one in
    ten). `fetch` (place,) [s] is the walk from the nearest tap or tank and back, `hose` (place,)
    [m] the straight distance to it, `head` (place,) [m] how far it lies above the place, `source`
    (place,) its number in `labels`; `capacity` (source,) [l] of tanks, infinite for taps.
    """

    lacking: np.ndarray
    fetch: np.ndarray
    hose: np.ndarray
    head: np.ndarray
    source: np.ndarray
    labels: tuple[str, ...]
    capacity: np.ndarray


def watering_of(
    site: Site, places: Places, z: np.ndarray, soils: Soils, years: WeatherYears, use: np.ndarray
) -> Watering:
    """Watering of young trees on a site that has a tap or tank.

    `z` (y, x) [m]; `use` reference evapotranspiration (year, day) [mm/day].
    """
    sources = site.of_kind(*SOURCES)
    where = [feature.geometry.centroid for feature in sources]
    walks = np.stack([walk_of(site, (point.x, point.y), places, z) for point in where])
    source = np.where(np.isnan(walks), np.inf, walks).argmin(axis=0)
    place = np.arange(places.x.size)
    points = np.asarray(shapely.points(places.x, places.y))
    away = np.stack([shapely.distance(points, feature.geometry) for feature in sources])
    stand = z[places.cell_of(np.array([p.x for p in where]), np.array([p.y for p in where]))]
    return Watering(
        lacking=_lacking(soils, years, use, site.latitude >= 0),
        fetch=walks[source, place],
        hose=away[source, place],
        head=stand[source] - places.at_places(z),
        source=source,
        labels=tuple(described(feature) for feature in sources),
        capacity=np.array(
            [f.number("capacity_l") if f.kind == "tank" else np.inf for f in sources]
        ),
    )


def _lacking(soils: Soils, years: WeatherYears, use: np.ndarray, north: bool) -> np.ndarray:
    """What the root zone of a young tree lacks by soil (summer, 2, place) [mm]."""
    rain, use = (_from_wet_season(days, north) for days in (years.rain, use))
    growth = crop_coefficient(POME_BARE, start=GROWTH)
    cared_for = np.arange(DAYS) >= GROWTH
    lacking = np.full((SUMMERS, 2, soils.texture.size), np.nan)
    depth = soils.depth / 100
    for texture, metres in {*zip(soils.texture.tolist(), depth.tolist(), strict=True)}:
        water = soil_water_of(np.array([TEXTURES[texture]])).available[0]
        held = water * rooting_depth(np.arange(SUMMERS), metres)
        brought = root_zone(rain, use, growth, held, cared_for).watered.sum(axis=-1)
        here = (soils.texture == texture) & (depth == metres)
        lacking[:, :, here] = median_and_dry(brought).T[:, :, None]
    return lacking


def _from_wet_season(days: np.ndarray, north: bool) -> np.ndarray:
    """Years of days that start in the wet season (year, day); a single year follows itself."""
    start = WET_SEASON[north]
    if len(days) == 1:
        return np.roll(days, -start, axis=1)
    joined = days.ravel()[start : start - DAYS].reshape(-1, DAYS)
    return joined[np.isfinite(joined).all(axis=1)]
