"""Late frost: how often does a night in blossom take a part of the crop?"""

from datetime import date, timedelta
from functools import cache

import numpy as np
import param

from model.decision.desirability import Curve
from model.factors.factor import Factor, Settings
from model.ground import Ground, given
from model.land import bloom, reference_climate, seasons
from model.land.blossom_frost import Stages, damage_chance
from model.language import _, dated
from model.trees import Traits

# From full bloom to the first day of white or pink buds, open blossom and fruitlets, and to the
# end of the danger [days] (common practice, no source).
STAGE_STARTS = (-10.0, -3.0, 10.0)
LAST_DAY = 35.0
NORTH = 52.0  # where the catalogue's bloom days hold


class FrostSettings(Settings):
    """The curve over the chance a year."""

    curve = param.ClassSelector(
        class_=Curve, default=Curve((0.0, 10.0, 30.0, 60.0), (1.0, 0.8, 0.4, 0.05))
    )


@cache
def _reference() -> bloom.Progress:
    """Chill and heat gathered in the climate in which the catalogue's bloom days hold."""
    days = bloom.flowering_season(NORTH)
    hours = seasons.by_season(reference_climate.reference_hours(), days)
    return bloom.progress(hours.reshape(len(hours), -1).T)


@cache
def bloom_heat(chill: float, bloom_day: float) -> float:
    """Heat from the end of rest to full bloom [K h] that gives the catalogue's bloom day there."""
    start = bloom.flowering_season(NORTH)[0]
    known = (bloom_day - start) % seasons.DAYS
    return bloom.heat_need(_reference(), chill, known, bloom.first_stirring(NORTH))


def _bloom(ground: Ground, traits: Traits, option: int) -> np.ndarray:
    """Full bloom of an option (season, level) [days from the season's start]."""
    frost = given(ground.frost)
    chill = float(traits.chill_need[option])
    need = bloom_heat(chill, float(traits.bloom_day[option]))
    stirring = bloom.first_stirring(ground.latitude)
    return frost.at_levels(bloom.full_bloom(frost.gathered, chill, need, stirring))


def _chance(ground: Ground, traits: Traits, option: int, kills: np.ndarray) -> np.ndarray:
    """Chance a year of a killing night (level,) [1]; 0 where no flowering date is known."""
    frost = given(ground.frost)
    if not np.isfinite([traits.chill_need[option], traits.bloom_day[option], *kills]).all():
        return np.zeros(frost.level.size)
    stages = Stages(STAGE_STARTS, kills, LAST_DAY)
    chance = damage_chance(frost.minimum, _bloom(ground, traits, option), stages)
    return np.nan_to_num(chance)


def _measure(ground: Ground, traits: Traits) -> np.ndarray:
    frost = given(ground.frost)
    return 100 * np.stack(
        [
            frost.at_places(_chance(ground, traits, option, traits.frost_10[:, option]))
            for option in range(len(traits.options))
        ]
    )


def _explain(ground: Ground, traits: Traits, option: int, place: int) -> str:
    frost = given(ground.frost)
    if not np.isfinite([traits.chill_need[option], traits.bloom_day[option]]).all():
        return _("No flowering date is known for it: taken as 0 % at risk, and not judged.")
    some, most = (
        100 * frost.at_places(_chance(ground, traits, option, kills[:, option]))[place]
        for kills in (traits.frost_10, traits.frost_90)
    )
    offset = frost.place_level[place]
    day = np.nanmedian(_bloom(ground, traits, option), axis=0)
    said = _(
        "Full bloom about {date}. In {some:.0f} of 100 years a night takes a tenth of the blossom "
        "or more, in {most:.0f} nearly all; on clear nights this place is {offset:.1f} °C colder "
        "than the weather station."
    )
    if offset >= 0:
        said = _(
            "Full bloom about {date}. In {some:.0f} of 100 years a night takes a tenth of the "
            "blossom or more, in {most:.0f} nearly all; on clear nights this place is "
            "{offset:.1f} °C warmer than the weather station."
        )
    bloomed = _date(ground, float(frost.at_places(day)[place]))
    return said.format(date=bloomed, some=some, most=most, offset=abs(offset))


def _date(ground: Ground, day: float) -> str:
    """A day counted from the season's start, as people say it."""
    if np.isnan(day):
        return _("no fixed date (the winter's chill does not suffice)")
    number = bloom.flowering_season(ground.latitude)[min(int(day), bloom.SEASON_DAYS - 1)]
    return dated(date(2001, 1, 1) + timedelta(days=int(number) - 1))


LATE_FROST = Factor(
    name="late_frost",
    label="Late frost",
    question="How often does a night in blossom take part of the crop?",
    group="place",
    quantity="frost_chance",
    unit="% of years",
    decimals=0,
    needs=("frost",),
    settings=FrostSettings,
    measure=_measure,
    explain=_explain,
    sources=(
        "Flowering from chill and heat: Anderson, Richardson & Kesner (1986), Acta Hort. 184:71.",
        "Warmth above a basin's floor: Hocevar & Martsolf (1971), Agric. Meteorol. 8:371.",
        "Killing temperatures by stage: the catalogue (Penn State, K-State; WSU bulletins).",
    ),
)
