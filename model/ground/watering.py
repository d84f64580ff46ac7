"""Water for the first two summers: what each soil lacks, and how it is brought."""

from dataclasses import dataclass
from datetime import datetime

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
from model.land.watering import busiest, portions
from model.language import _, dated, marked
from model.survey.site import Site

KEPT_DAY = "%-d %B"
SUMMERS = 2
WET_SEASON = {True: 273, False: 90}  # first day of the balance, north and south: a full soil
GROWTH = 79 - 273 + DAYS  # 20 March, counted from there; the south is half a year later
SOURCES = ("tap", "tank")
DRY_YEAR = 0.9  # nine years in ten need less
NO_DAY = marked("no day")
PORTION = 20.0  # [mm] brought at a time, two cans to the square metre (common practice)


@dataclass(frozen=True)
class Watering:
    """Water that a young tree lacks, and where it comes from.

    `lacking` (summer, 2, place) [mm = litres a square metre] in a median and in a dry year (one in
    ten); `week` (place,) [mm] the first dry summer's busiest week, `first` and `last` (place,) the
    dates between which it calls for water. `fetch` (place,) [s] is the walk from the nearest tap
    or tank and back, `hose` (place,) [m] the straight distance to it, `head` (place,) [m] how far
    it lies above the place, `source` (place,) its number in `labels`; `capacity` (source,) [l] of
    tanks, infinite for taps.
    """

    lacking: np.ndarray
    week: np.ndarray
    first: np.ndarray
    last: np.ndarray
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
    lacking, week, first, last = _need(soils, years, use, site.latitude >= 0)
    return Watering(
        lacking=lacking,
        week=week,
        first=first,
        last=last,
        fetch=walks[source, place],
        hose=away[source, place],
        head=stand[source] - places.at_places(z),
        source=source,
        labels=sources_named(site),
        capacity=np.array(
            [f.number("capacity_l") if f.kind == "tank" else np.inf for f in sources]
        ),
    )


def _need(
    soils: Soils, years: WeatherYears, use: np.ndarray, north: bool
) -> tuple[np.ndarray, np.ndarray, np.ndarray, np.ndarray]:
    """What a young tree lacks by soil, its busiest week [mm], first and last date of a dry year."""
    rain, use = (_from_wet_season(days, north) for days in (years.rain, use))
    growth = crop_coefficient(POME_BARE, start=GROWTH)
    cared_for = np.arange(DAYS) >= GROWTH
    lacking = np.full((SUMMERS, 2, soils.texture.size), np.nan)
    week = np.full(soils.texture.size, np.nan)
    first, last = (np.full(soils.texture.size, "", dtype="U12") for _ in range(2))
    depth = soils.depth / 100
    for texture, metres in {*zip(soils.texture.tolist(), depth.tolist(), strict=True)}:
        water = soil_water_of(np.array([TEXTURES[texture]])).available[0]
        held = water * rooting_depth(np.arange(SUMMERS), metres)
        brought = root_zone(rain, use, growth, held, cared_for).watered
        here = (soils.texture == texture) & (depth == metres)
        lacking[:, :, here] = median_and_dry(brought.sum(axis=-1)).T[:, :, None]
        week[here] = median_and_dry(busiest(brought[0]))[1]
        first[here], last[here] = _dates(brought[0], north)
    return lacking, week, first, last


def _dates(brought: np.ndarray, north: bool) -> tuple[str, str]:
    """First and last day of watering in a dry year, by the days (year, day) it was brought [mm]."""
    need = brought.sum(axis=1)
    dry = int(np.abs(need - np.quantile(need, DRY_YEAR)).argmin())
    due = np.flatnonzero(portions(brought[dry], PORTION))
    if not due.size:
        return NO_DAY, NO_DAY
    start = np.datetime64("2001-01-01") + np.timedelta64(WET_SEASON[north], "D")
    first, last = (start + np.timedelta64(int(day), "D") for day in (due[0], due[-1]))
    return f"{first.item():{KEPT_DAY}}", f"{last.item():{KEPT_DAY}}"


def day_shown(kept: str) -> str:
    """A first or last day as people read it; it is kept in English, for any language.

    >>> day_shown("24 April"), day_shown("no day")
    ('24 April', 'no day')
    """
    if kept == NO_DAY:
        return _(NO_DAY)
    return dated(datetime.strptime(f"{kept} 2001", f"{KEPT_DAY.replace('-', '')} %Y").date())


def sources_named(site: Site) -> tuple[str, ...]:
    """What people call the taps and tanks."""
    return tuple(described(feature) for feature in site.of_kind(*SOURCES))


def _from_wet_season(days: np.ndarray, north: bool) -> np.ndarray:
    """Years of days that start in the wet season (year, day); a single year follows itself."""
    start = WET_SEASON[north]
    if len(days) == 1:
        return np.roll(days, -start, axis=1)
    joined = days.ravel()[start : start - DAYS].reshape(-1, DAYS)
    return joined[np.isfinite(joined).all(axis=1)]
