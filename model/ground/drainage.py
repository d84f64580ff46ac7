"""How wet the ground lies: what was seen there, and what slope, soil and weather say."""

from dataclasses import dataclass

import numpy as np
import shapely

from model.ground.places import Places
from model.ground.soil import Soils
from model.ground.weather_years import DAYS, WeatherYears
from model.land import cold_air, terrain, wetness
from model.land.evapotranspiration import Air, reference_evapotranspiration
from model.land.soil_texture import soil_water_of
from model.land.water_balance import root_zone
from model.land.waterlogging import drain_rate, wet_months
from model.survey.site import Site
from model.survey.soil import TEXTURES

GRASS = 1.0  # crop coefficient of grass, the reference crop of FAO-56


@dataclass(frozen=True)
class Drainage:
    """Months a year that the root zone stands wet by slope, soil and weather (place,)."""

    months: np.ndarray


def evapotranspiration_of(years: WeatherYears, site: Site) -> np.ndarray:
    """Reference evapotranspiration of every day (year, day) [mm], by what the file has."""
    days = np.arange(1, DAYS + 1)
    known = years.air
    station = site.weather.station_altitude if site.weather else site.altitude
    air = Air(known.get("humidity"), known.get("wind"), known.get("radiation"))
    return reference_evapotranspiration(
        years.tmin, years.tmax, site.latitude, days, station, air if known else None
    )


def wet_ground_seen(site: Site, x: np.ndarray, y: np.ndarray) -> np.ndarray:
    """Months a year that ground was seen to stand wet (place,); none where nothing was noted."""
    seen = np.zeros(x.size)
    for patch in site.of_kind("wet_ground"):
        within = shapely.contains_xy(patch.geometry, x, y)
        seen[within] = np.maximum(seen[within], patch.number("wet_months"))
    return seen


def drainage_of(
    places: Places, z: np.ndarray, soils: Soils, rain: np.ndarray, use: np.ndarray
) -> Drainage:
    """How long the root zone stands wet at every place.

    `z` (y, x) [m]; `rain` and reference evapotranspiration `use` (year, day) [mm/day].
    """
    lie = wetness.topographic_wetness(z, terrain.slope(z, places.cell), places.cell)
    height = places.at_places(cold_air.height_above_drain(z))
    depth = soils.depth / 100
    months = np.full(places.x.size, np.nan)
    known = np.isfinite(rain).all(axis=1)
    drying = np.maximum(use[known] - rain[known], 0)
    for texture, metres in {*zip(soils.texture.tolist(), depth.tolist(), strict=True)}:
        here = (soils.texture == texture) & (depth == metres)
        water = soil_water_of(np.array([TEXTURES[texture]]))
        held = water.available[0] * metres
        surplus = root_zone(rain[known], use[known], np.full(DAYS, GRASS), held).drained
        rate = drain_rate(places.at_places(lie)[here], water.conductivity[0], metres, height[here])
        pores = 1000 * water.drainable[0] * metres
        months[here] = wet_months(surplus, rate, pores, drying)
    return Drainage(months)
