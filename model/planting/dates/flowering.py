"""When each tree of a plan flowers in this site's weather."""

from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np

from model.factors.late_frost import LAST_DAY, STAGE_STARTS, bloom_heat
from model.ground import given
from model.land import bloom
from model.planting.dates.season import Season
from model.planting.placement import Planted
from model.study import Study

BUDS = 21  # [days] before full bloom at which buds swell and planting ends (common practice)
EARLY = 0.1  # one spring in ten is as early


@dataclass(frozen=True)
class Flowering:
    """Dates of a tree's first spring: when buds break in an early one, blossom, end of danger."""

    buds: date
    danger: date
    bloom: date
    safe: date


def flowering(study: Study, tree: Planted, season: Season) -> Flowering | None:
    """The flowering of one tree; None where no weather or no flowering date is known."""
    traits, option = study.traits, tree.option
    known = [traits.chill_need[option], traits.bloom_day[option]]
    if study.ground.frost is None or not np.isfinite(known).all():
        return None
    frost = given(study.ground.frost)
    need = bloom_heat(*map(float, known))
    stirring = bloom.first_stirring(study.ground.latitude)
    by_level = frost.at_levels(bloom.full_bloom(frost.gathered, float(known[0]), need, stirring))
    level = frost.place_level[tree.place]
    days = np.array([np.interp(level, frost.level, of_season) for of_season in by_level])
    days = days[np.isfinite(days)]
    if days.size == 0:
        return None
    start = season.of_day(int(bloom.flowering_season(study.ground.latitude)[0]))
    middle, early = float(np.median(days)), float(np.quantile(days, EARLY))
    buds, danger, open_, safe = (
        start + timedelta(days=round(day))
        for day in (early - BUDS, middle + STAGE_STARTS[0], middle, middle + LAST_DAY)
    )
    return Flowering(buds, danger, open_, safe)
