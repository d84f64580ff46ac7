"""What the model expected to be seen at a peg in a year, and how sure it was."""

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

import numpy as np
import shapely

from model.ground import given
from model.land.sun_patches import summer_months
from model.language import _, marked
from model.planting.year_after.transplanting import figure
from model.planting.year_after.watched import WATCHED
from model.robustness.usual_errors import USUAL
from model.study import Study
from model.survey.plus_minus import DEVIATIONS
from model.trees import TYPICAL, full_size, size_at_age


def figures_off(kind: str, name: str) -> float:
    """Standard deviation of a surveyed figure where nobody says, in its unit."""
    return USUAL[kind, name].surveyed.fixed / DEVIATIONS


MONTH = 365.25 / 12  # [days]
WHIP = 1.5  # [m] height of a maiden whip on planting (common practice, no source)
# How far the map may be off, as standard deviations. All of it common practice, no source, set from
# what the survey's figures are usually off by and not from what comes of it.
# Sun [h]: half an hour for posts, shrubs and a horizon that nobody drew, and a share of what stands
# in the way takes. That grows about as heights and crowns do, which are off by 7.5 % each when
# taken by eye, and with the leaves, whose density in one hedge against another differs by 20 %.
SUN_SD, SUN_SHARE = 0.5, math.hypot(0.075, 0.075, 0.20)
# Wet and soil: as a survey is usually off that does not say.
WET_SD = figures_off("wet_ground", "wet_months")  # [months]
SOIL_SD = {"ph": figures_off("soil", "ph"), "soil_depth": figures_off("soil", "depth_cm")}
GROWTH_SD = 15.0  # [cm] from tree to tree, three quarters of a good season's 40 to 60
# Frost and browsing as if watched for so many years: frost is reckoned from days of weather, ten at
# most since the station is not the peg; browsing from the distance to a run alone, a guess.
SPRINGS, WINTERS = 10.0, 4.0
# Any other figure: a tenth of the stretch of its curve, one rule since none is known better.
TENTH = 0.1


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


NOTHING = Expected(math.nan, math.nan, source=marked("the model expects nothing of it: a sign"))


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
    said = _("the model; sd: common practice, no source")
    return Expected(value, tenth(study, factor), source=said)


def tenth(study: Study, factor: str) -> float:
    """A tenth of the stretch over which a factor's curve runs, in its unit."""
    knots = study.settings[factor].curve.x
    return TENTH * (max(knots) - min(knots))


def _sun(study: Study, place: int) -> Expected:
    sun = study.ground.sun_now
    hours = sun.a_day(sun.hours, summer_months(study.ground.latitude))
    taken = float(np.nanmax(hours) - hours[place])
    said = _(
        "the map's sun of a clear day, neighbours as they stand now; sd common practice, no source"
    )
    return Expected(float(hours[place]), math.hypot(SUN_SD, SUN_SHARE * taken), source=said)


def _wet(study: Study, place: int) -> Expected:
    days = float(study.ground.wet_months[place]) * MONTH
    years = study.ground.years
    varies = 0.0
    if years is not None:
        rain = years.rain.sum(axis=1)
        rain = rain[np.isfinite(rain)]
        varies = float(rain.std() / rain.mean()) if rain.size > 1 and rain.mean() > 0 else 0.0
    said = _(
        "wet months as seen or reckoned, sd common practice, no source; years differ as the year's "
        "rain does"
    )
    return Expected(days, WET_SD * MONTH, varies * days, source=said)


def _growth(study: Study, place: int, option: int, seasons: int) -> Expected:
    """The growth curve's rise, or that of a good first season while it is below a whip's height."""
    fertility = study.ground.soils.fertility[[place]]
    full = float(full_size(study.traits, fertility).height[TYPICAL, option, 0])
    rate, power = study.traits.growth_rate[option], study.traits.growth_power[option]
    heights = size_at_age(full, [seasons - 1, seasons], rate, power, WHIP)
    rise = 100 * float(heights[1] - heights[0])
    if seasons > 1 and rise > 0 and heights[0] > WHIP:
        return Expected(rise, GROWTH_SD, source=_("the rootstock's growth curve"))
    good = (figure("leader", "good_low") + figure("leader", "good_high")) / 2
    said = _("40 to 60 cm in a good first season: common practice, no source")
    return Expected(good, GROWTH_SD, source=said)


def _soil(what: str, study: Study, place: int) -> Expected:
    soils = study.ground.soils
    value = float((soils.ph if what == "ph" else soils.depth)[place])
    number = patch_at(study, place)
    field = "ph" if what == "ph" else "depth_cm"
    patches = study.site.of_kind("soil_patch")
    general = study.site.soil_plus_minus.get(field, math.nan)
    said = patches[number].plus_minus(field) if number >= 0 else general
    sd = said / DEVIATIONS if said > 0 else SOIL_SD[what]
    source = _("the survey") if said > 0 else _("the survey; sd common practice, no source")
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
    said = _("the site's weather, worth {springs:.0f} springs seen (a model choice)")
    return _yearly(chance, springs, said.format(springs=springs))


def _browsing(_study: Study, chance: float) -> Expected:
    said = _("distance from runs, worth 4 years seen (common practice, no source)")
    return _yearly(chance, WINTERS, said)


OF_THE_LAND: dict[str, Callable[[Study, int], Expected]] = {
    "sun_hours": _sun,
    "wet_days": _wet,
    "ph": partial(_soil, "ph"),
    "soil_depth": partial(_soil, "soil_depth"),
}
YEARLY = {"blossom_frost": _frost, "browsed": _browsing}
