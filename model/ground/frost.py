"""Late frost: the nights of every spring, and how each place differs from the station in them."""

from dataclasses import dataclass

import numpy as np
import shapely

from model.ground.places import Places
from model.ground.walk import gateways
from model.ground.weather_years import WeatherYears
from model.land import bloom, cold_air, seasons
from model.land.bloom import Progress
from model.survey.site import Site

# Height [share] of what holds cold air back: leaves and rails let some through near the ground
# (model choice: common practice, no source).
HOLDS = {"building": 1.0, "wall": 1.0, "hedge": 0.6, "fence": 0.1, "woodland": 0.5}
LOW = 1.5  # [m] cold air flows over a taller barrier's foot as over one so high: it is not deep
LEVELS = 16  # of warmth on clear nights at which frost is reckoned
OFFSETS = 3  # of mean warmth, which differs little over a site, at which bloom is


@dataclass(frozen=True)
class Frost:
    """Springs of all years at levels of warmth that span the places.

    `level` (level,) [K] is a place's offset on calm clear nights, `minimum` (season, day, level)
    [C] the nights' lowest temperature there. `chill` [portions] and `heat` [K h] (hour, season,
    offset) are what buds gather at the mean `offsets` (offset,) [K] that span the places, of which
    `level_offset` (level,) [K] is each level's. `place_level` (place,) [K]; `hollow` (place,) [m]
    the depth of cold air held over a place.
    """

    level: np.ndarray
    minimum: np.ndarray
    chill: np.ndarray
    heat: np.ndarray
    offsets: np.ndarray
    level_offset: np.ndarray
    place_level: np.ndarray
    hollow: np.ndarray

    @property
    def gathered(self) -> Progress:
        """Chill and heat gathered by buds."""
        return Progress(self.chill, self.heat)

    def at_levels(self, by_offset: np.ndarray) -> np.ndarray:
        """Values known by mean offset (season, offset) read at every level (season, level)."""
        position = np.interp(self.level_offset, self.offsets, np.arange(self.offsets.size))
        low = np.minimum(position.astype(int), self.offsets.size - 2)
        part = position - low
        return by_offset[:, low] * (1 - part) + by_offset[:, low + 1] * part

    def at_places(self, by_level: np.ndarray) -> np.ndarray:
        """Values known by level (level,) read at every place (place,)."""
        return np.interp(self.place_level, self.level, by_level)


def frost_of(
    site: Site, places: Places, z: np.ndarray, years: WeatherYears, place_offset: np.ndarray
) -> Frost:
    """Frost on a site; `z` (y, x) [m], `place_offset` (place,) [K] by altitude alone."""
    pool = cold_air.hollow_depth(z) + cold_air.dammed_depth(z, _barriers(site, places), places.cell)
    clear = _clear_offset(site, places, z, pool)
    days = bloom.flowering_season(site.latitude)
    hours = seasons.by_season(years.hourly, days)
    tmin, tmax = (seasons.by_season(part, days) for part in (years.tmin, years.tmax))
    known = np.isfinite(tmin).all(axis=1)
    level = np.linspace(np.nanmin(clear), np.nanmax(clear) + 1e-3, LEVELS)
    mean = _mean_by_level(level, clear, place_offset)
    share = cold_air.clear_share(tmin[known], tmax[known])[..., None]
    offsets = np.linspace(mean.min() - 1e-3, mean.max() + 1e-3, OFFSETS)
    gathered = bloom.progress(hours[known].reshape(known.sum(), -1).T[..., None] + offsets)
    minimum = cold_air.night_minimum(tmin[known][..., None], share, level, mean)
    return Frost(
        level=level,
        minimum=minimum.astype(np.float32),
        chill=gathered.chill.astype(np.float32),
        heat=gathered.heat.astype(np.float32),
        offsets=offsets,
        level_offset=mean,
        place_level=clear,
        hollow=places.at_places(pool),
    )


def _clear_offset(site: Site, places: Places, z: np.ndarray, pool: np.ndarray) -> np.ndarray:
    """Warmth of every place against the station on calm clear nights (place,) [K]."""
    height = cold_air.height_above_drain(z)
    station = site.weather.station_altitude if site.weather else site.altitude
    drain = z - height - (station - cold_air.STATION_HEIGHT)
    offset = cold_air.clear_night_offset(height, pool, drain)
    return places.at_places(offset) + _water(site, places)


def _water(site: Site, places: Places) -> np.ndarray:
    """Warming by open water (place,) [K], that of the water that warms most."""
    points = np.asarray(shapely.points(places.x, places.y))
    warmth = np.zeros(places.x.size)
    for water in site.of_kind("watercourse"):
        width = water.number("width_m")
        distance = np.maximum(shapely.distance(points, water.geometry) - width / 2, 0)
        warmth = np.maximum(warmth, cold_air.water_warmth(distance, width))
    return warmth


def _mean_by_level(level: np.ndarray, clear: np.ndarray, offset: np.ndarray) -> np.ndarray:
    """Mean offset by altitude of the places near each level (level,) [K]."""
    known = np.isfinite(clear) & np.isfinite(offset)
    slope, start = (
        np.polyfit(clear[known], offset[known], 1) if np.ptp(clear[known]) else (0.0, 0.0)
    )
    if not np.ptp(clear[known]):
        start = float(offset[known].mean())
    fitted = start + slope * level
    return np.clip(fitted, offset[known].min(), offset[known].max())


def _barriers(site: Site, places: Places) -> np.ndarray:
    """Height of what holds cold air back (y, x) [m]; gates let it through."""
    x, y = np.meshgrid(places.columns, places.rows)
    half = places.cell / 2
    boxes = shapely.box(x - half, y - half, x + half, y + half)
    height = np.zeros(places.shape)
    for feature in site.of_kind(*HOLDS):
        line = feature.geometry
        held = min(feature.number("height_m"), LOW) * HOLDS[feature.kind]
        shapely.prepare(line)
        height = np.where(shapely.intersects(line, boxes), np.maximum(height, held), height)
    for way in gateways(site, places.cell):
        height[shapely.contains_xy(way, x, y)] = 0.0
    return height
