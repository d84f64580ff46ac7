"""What the model expected to be seen at a peg in a year, and how sure it was."""

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

import numpy as np
import shapely

from model.ground import given
from model.land.sun_patches import summer_months
from model.planting.transplanting import figure
from model.planting.watched import ASSUMED, WATCHED
from model.study import Study
from model.survey.plus_minus import DEVIATIONS
from model.trees import TYPICAL, full_size, size_at_age

MONTH = 365.25 / 12  # [days]
CERTAIN = 1e-6  # sd of a measure whose usual error is not known
WHIP = 1.5  # [m] height of a maiden whip on planting (common practice, no source)
# [h] of the map's sun: the least, and as a share of what stands in the way takes, whose heights and
# leaves are taken by eye (common practice, no source)
SUN_SD, SUN_SHARE = 0.5, 0.35
WET_SD = 0.75  # [months] of the reckoned wet, half of the usual plus-minus (common practice)
GROWTH_SD = 15.0  # [cm] from tree to tree (common practice, no source)
SPRINGS = 10.0  # springs seen that the reckoned frost counts for at most (common practice)
WINTERS = 4.0  # years seen that the reckoned browsing counts for (common practice, no source)
SOIL_SD = {"ph": 0.25, "soil_depth": 7.5}  # where the survey says nothing (common practice)

# Standard deviation of each factor's measure at one peg against another, in its unit, where
# nothing was seen there; factors left out err alike everywhere. Common practice, no source.
SPREAD = {
    "climate_fit": 3.0, "sunlight": 0.5, "late_frost": 4.0, "wind_exposure": 8.0, "vigour": 0.2,
    "spacing": 0.2, "root_competition": 5.0, "drainage": 0.5, "soil_depth": 7.5,
    "soil_acidity": 0.25, "watering": 0.1, "fungal_network": 0.1, "access": 0.1, "slope": 2.0,
    "browsing": 12.0, "views": 3.0, "own_shade": 0.1,
}  # fmt: skip
# A measure of 0 of these says that nothing is near enough to count, and is taken as certain.
NOTHING_NEAR = ("root_competition", "fungal_network", "browsing", "views", "own_shade")


@dataclass(frozen=True)
class Expected:
    """What was expected: a normal belief, or for yearly yes or no a Beta one worth `years` seen.

    `mean` and `sd` in the unit of what is watched, a chance [0 to 1] for yearly ones; `year_sd`
    by how much one year differs from the mean of years; `source` where it comes from. NaN where
    the model expects nothing.
    """

    mean: float
    sd: float
    year_sd: float = 0.0
    years: float = 0.0
    source: str = ""


NOTHING = Expected(math.nan, math.nan, source="the model expects nothing of it: a sign")


def expected(study: Study, what: str, place: int, option: int, seasons: int = 1) -> Expected:
    """What an option at a place was expected to show, so many seasons after planting."""
    if what == "leader_growth":
        return _growth(study, place, option, seasons)
    if what in OF_THE_LAND:
        return OF_THE_LAND[what](study, place)
    factor = WATCHED[what].factor if what in WATCHED else what
    if factor not in study.measures:
        return NOTHING
    measure = study.measure(factor)
    value = float(measure[min(option, len(measure) - 1), place])
    if what in YEARLY:
        return YEARLY[what](study, value / 100)
    return Expected(value, SPREAD.get(factor, 0.0) or CERTAIN, source=f"the model; sd: {ASSUMED}")


def _sun(study: Study, place: int) -> Expected:
    sun = study.ground.sun_now
    hours = sun.a_day(sun.hours, summer_months(study.ground.latitude))
    taken = float(np.nanmax(hours) - hours[place])
    said = f"the map's sun of a clear day, neighbours as they stand now; sd {ASSUMED}"
    return Expected(float(hours[place]), max(SUN_SD, SUN_SHARE * taken), source=said)


def _wet(study: Study, place: int) -> Expected:
    days = float(study.ground.wet_months[place]) * MONTH
    years = study.ground.years
    varies = 0.0
    if years is not None:
        rain = years.rain.sum(axis=1)
        rain = rain[np.isfinite(rain)]
        varies = float(rain.std() / rain.mean()) if rain.size > 1 and rain.mean() > 0 else 0.0
    said = f"wet months as seen or reckoned, sd {ASSUMED}; years differ as the year's rain does"
    return Expected(days, WET_SD * MONTH, varies * days, source=said)


def _growth(study: Study, place: int, option: int, seasons: int) -> Expected:
    """The growth curve's rise, or that of a good first season while it is below a whip's height."""
    fertility = study.ground.soils.fertility[[place]]
    full = float(full_size(study.traits, fertility).height[TYPICAL, option, 0])
    rate, power = study.traits.growth_rate[option], study.traits.growth_power[option]
    heights = size_at_age(full, [seasons - 1, seasons], rate, power, WHIP)
    rise = 100 * float(heights[1] - heights[0])
    if seasons > 1 and rise > 0 and heights[0] > WHIP:
        return Expected(rise, GROWTH_SD, source="the rootstock's growth curve")
    good = (figure("leader", "good_low") + figure("leader", "good_high")) / 2
    return Expected(good, GROWTH_SD, source=f"40 to 60 cm in a good first season: {ASSUMED}")


def _soil(what: str, study: Study, place: int) -> Expected:
    soils = study.ground.soils
    value = float((soils.ph if what == "ph" else soils.depth)[place])
    number = patch_at(study, place)
    field = "ph" if what == "ph" else "depth_cm"
    patches = study.site.of_kind("soil_patch")
    general = study.site.soil_plus_minus.get(field, math.nan)
    said = patches[number].plus_minus(field) if number >= 0 else general
    sd = said / DEVIATIONS if said > 0 else SOIL_SD[what]
    source = "the survey" if said > 0 else f"the survey; sd {ASSUMED}"
    return Expected(value, sd, source=source)


def patch_at(study: Study, place: int) -> int:
    """Number of the soil patch that lies uppermost at a place, -1 where none does."""
    x, y = study.ground.places.x[place], study.ground.places.y[place]
    patches = study.site.of_kind("soil_patch")
    over = [n for n, patch in enumerate(patches) if shapely.contains_xy(patch.geometry, x, y)]
    return over[-1] if over else -1


def _yearly(chance: float, years: float, source: str) -> Expected:
    """A Beta belief; a chance is never taken as quite 0 or 1."""
    mean = min(max(chance, 0.02), 0.98)
    return Expected(mean, math.sqrt(mean * (1 - mean) / (years + 1)), years=years, source=source)


def _frost(study: Study, chance: float) -> Expected:
    springs = min(float(given(study.ground.frost).minimum.shape[0]), SPRINGS)
    said = f"the site's weather, worth {springs:.0f} springs seen (a model choice)"
    return _yearly(chance, springs, said)


def _browsing(_: Study, chance: float) -> Expected:
    return _yearly(chance, WINTERS, f"distance from runs, worth 4 years seen ({ASSUMED})")


OF_THE_LAND: dict[str, Callable[[Study, int], Expected]] = {
    "sun_hours": _sun,
    "wet_days": _wet,
    "ph": partial(_soil, "ph"),
    "soil_depth": partial(_soil, "soil_depth"),
}
YEARLY = {"blossom_frost": _frost, "browsed": _browsing}
