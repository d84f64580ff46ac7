"""What a year's observations make of what was expected: prior, seen and posterior.

Normal beliefs and normal errors: precisions add (Lee, Bayesian Statistics, 2.2). Yearly yes or no:
a Beta belief and a count. What one year differs from the mean of years cannot be averaged away by
looking more often in it, so it is added once a year.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from model.decision.updating import beta_update, normal_update
from model.language import _, marked
from model.planting.candidates import place_name
from model.planting.year_after.expected import Expected, expected, patch_at
from model.planting.year_after.observations import Observation
from model.planting.year_after.transplanting import figure
from model.study import Study
from model.survey.plus_minus import DEVIATIONS

DOUBTED = 2.0  # standard scores beyond which map or meter is distrusted
RARE = 0.05
WITHIN = {"ph": 0.15, "soil_depth": 8.0}  # sd within one soil from peg to peg (common practice)
SOIL = tuple(WITHIN)
LESS_MORE = {
    "sun_hours": (marked("less sun than expected"), marked("more sun than expected")),
    "wet_days": (marked("drier than expected"), marked("wetter than expected")),
    "ph": (marked("more acid than expected"), marked("more limy than expected")),
    "soil_depth": (marked("shallower than expected"), marked("deeper than expected")),
    "browsed": (marked("less browsed than expected"), marked("more browsed than expected")),
    "blossom_frost": (
        marked("less frost in blossom than expected"),
        marked("more frost in blossom than expected"),
    ),
    "leader_growth": (marked("less growth than expected"), marked("more growth than expected")),
}
ANYTHING = marked("less than expected"), marked("more than expected")


@dataclass(frozen=True)
class Evidence:
    """One thing at one peg for one option; figures in the unit of what was seen.

    For yearly yes or no all four are chances or shares of years [0 to 1]. `surprise` is the
    standard score of what was seen, given what was expected; NaN where nothing was expected.
    `own` is False for soil that was seen only at other pegs; `again` says that it was seen on two
    days or more which agree, so that the doubt falls on the map alone.
    """

    spot: str
    option: int
    what: str
    prior: Expected
    seen: float
    seen_sd: float
    mean: float
    sd: float
    surprise: float
    count: int
    own: bool = True
    again: bool = False

    @property
    def doubted(self) -> bool:
        """Whether what was seen is so far from what was expected that one of them is wrong.

        A single yes or no is in doubt only where it had less than 1 chance in 20; what was seen
        again is in doubt no more.
        """
        if not self.own or self.again:
            return False
        if self.prior.years and self.count == 1:
            happened = self.prior.mean if self.seen > 0 else 1 - self.prior.mean
            return happened < RARE
        return abs(self.surprise) > DOUBTED

    @property
    def words(self) -> str:
        """What it means, in a few words."""
        if self.what == "leader_growth" and self.seen < figure("leader", "poor"):
            return _("poor growth: look for the cause")
        if math.isnan(self.surprise):
            return _("a sign") if self.seen > 0 else _("nothing amiss")
        if abs(self.surprise) < 1:
            return _("as expected")
        if self.settled:
            return _("{difference}: the map was wrong").format(difference=self.difference)
        if not self.doubted or self.what == "leader_growth":
            return self.difference
        return _("{difference}: distrust the map or the meter").format(difference=self.difference)

    @property
    def settled(self) -> bool:
        """Whether it was seen again, and so far off that the map was wrong."""
        return self.again and abs(self.surprise) > DOUBTED

    @property
    def difference(self) -> str:
        """Which way it differs from what was expected."""
        less, more = LESS_MORE.get(self.what, ANYTHING)
        said = _(less if self.surprise < 0 else more)
        return _("{difference}, seen again").format(difference=said) if self.settled else said


def evidence_at(
    study: Study,
    place: int,
    option: int,
    observations: Sequence[Observation],
    seasons: int = 1,
    near: bool = True,
) -> tuple[Evidence, ...]:
    """All that is known at a place of an option, by what was seen, in the order first seen.

    Soil seen at another peg in the same soil counts too, less surely, unless `near` is False. What
    the survey was corrected by is on the map already and does not count again.
    """
    spot = spot_name(study, place)
    observations = [one for one in observations if not one.in_survey]
    mine = [(one, 0.0) for one in observations if one.spot == spot]
    elsewhere = [one for one in observations if one.spot != spot and one.what in SOIL]
    for one in elsewhere if near else ():
        at = place_of(study, one.spot)
        if at is not None and _same_soil(study, at, place):
            mine.append((one, WITHIN[one.what] * math.sqrt(2)))
    by_what: dict[str, list[tuple[Observation, float]]] = {}
    for one, apart in mine:
        by_what.setdefault(one.what, []).append((one, apart))
    return tuple(
        _weighed(spot, option, expected(study, what, place, option, seasons), seen)
        for what, seen in by_what.items()
    )


def _same_soil(study: Study, one: int, other: int) -> bool:
    return patch_at(study, one) == patch_at(study, other)


def spot_name(study: Study, place: int) -> str:
    """The peg's name, or the words for a cell of the grid as a plan names it."""
    return place_name(study, place)


def place_of(study: Study, spot: str) -> int | None:
    """The place of a peg, None where the survey has no peg of that name."""
    places = study.ground.places
    return places.cells + places.spots.index(spot) if spot in places.spots else None


def _weighed(
    spot: str, option: int, prior: Expected, seen: Sequence[tuple[Observation, float]]
) -> Evidence:
    what, count = seen[0][0].what, len(seen)
    if seen[0][0].kind.yearly:
        return _counted(spot, option, prior, [one for one, _ in seen])
    value, sd = _together(prior, seen)
    if math.isnan(prior.mean):
        return Evidence(spot, option, what, prior, value, sd, value, sd, math.nan, count)
    if what == "leader_growth":  # a sign: one season's growth tells little of the next
        surprise = (value - prior.mean) / math.hypot(prior.sd, sd)
        return Evidence(spot, option, what, prior, value, sd, prior.mean, prior.sd, surprise, count)
    belief = normal_update(prior.mean, prior.sd, value, sd)
    low = max(float(belief.mean), seen[0][0].kind.low)
    figures = (value, sd, low, float(belief.sd), float(belief.surprise))
    mine = [one for one, _ in seen if one.spot == spot]
    agreed = len({one.date for one in mine}) > 1 and all(
        abs(one.value - value) <= one.plus_minus for one in mine
    )
    return Evidence(spot, option, what, prior, *figures, count, bool(mine), agreed)


def _together(prior: Expected, seen: Sequence[tuple[Observation, float]]) -> tuple[float, float]:
    """One figure and its sd from several: within a year first, then over the years."""
    by_year: dict[int, list[tuple[float, float]]] = {}
    for one, apart in seen:
        variance = (one.plus_minus / DEVIATIONS) ** 2 + apart**2
        by_year.setdefault(one.date.year, []).append((one.value, variance))
    years = [_pooled(year) for year in by_year.values()]
    value, variance = _pooled([(v, var + prior.year_sd**2) for v, var in years])
    return value, math.sqrt(variance)


def _pooled(parts: Sequence[tuple[float, float]]) -> tuple[float, float]:
    """Mean and variance of figures weighted by their precision."""
    values, variances = np.array(parts).T
    if (variances <= 0).any():
        return float(values.mean()), 0.0
    precision = 1 / variances
    return float((values * precision).sum() / precision.sum()), float(1 / precision.sum())


def _counted(spot: str, option: int, prior: Expected, seen: Sequence[Observation]) -> Evidence:
    """Years in which it happened against years in which it did not."""
    years: dict[int, bool] = {}
    for one in seen:
        years[one.date.year] = years.get(one.date.year, False) or one.value > 0
    yes, n = sum(years.values()), len(years)
    share = yes / n
    if math.isnan(prior.mean):
        nothing = (share, math.nan, share, math.nan, math.nan)
        return Evidence(spot, option, seen[0].what, prior, *nothing, n)
    belief = beta_update(prior.mean, prior.sd, yes, n)
    figures = (share, math.nan, float(belief.mean), float(belief.sd), float(belief.surprise))
    return Evidence(spot, option, seen[0].what, prior, *figures, n, again=n > 1)
