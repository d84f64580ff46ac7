"""Scores of one option with what was seen in place of what the map said; the study stays as is."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from zlib import crc32

import numpy as np

from model.decision import power_mean
from model.decision.desirability import desirability
from model.land import acidity
from model.land.sun_patches import summer_months
from model.planting.year_after.evidence import Evidence
from model.planting.year_after.expected import MONTH, expected, patch_at, tenth
from model.planting.year_after.watched import WATCHED
from model.study import Study

DRAWS = 1000
SOIL_FACTORS = ("soil_acidity", "soil_depth")
# Of the weather and of the tree itself: what is wrong there is wrong by as much at every peg.
ALIKE = ("climate_fit", "vigour")
# Factors that stand on one figure which has its own usual error.
WATCHED_ALONE = {one.factor: one.name for one in WATCHED.values() if one.factor and not one.yearly}


@dataclass(frozen=True)
class Worth:
    """Score of an option at a place [0 to 1]: as the map says, as seen, and in draws (draw,).

    NaN where it is ruled out there.
    """

    place: int
    mapped: float
    score: float
    draws: np.ndarray


def measure_seen(
    study: Study, what: str, prior: float, option: int, place: int, seen: np.ndarray
) -> np.ndarray:
    """A factor's measure were the thing watched as `seen` (draw,), `prior` being expected.

    Sun: the share by which it differs is taken from the good sun that full-grown neighbours leave.
    """
    factor = WATCHED[what].factor if what in WATCHED else what
    measure = study.measure(factor)
    now = float(measure[min(option, len(measure) - 1), place])
    if what == "sun_hours":
        sun = study.ground.sun
        if study.settings["sunlight"].figures()["neighbours"] != "full size":
            sun = study.ground.sun_now
        strong = sun.a_day(sun.strong, summer_months(study.ground.latitude))[place]
        return now + strong * (np.maximum(seen, 0) / max(prior, 0.1) - 1)
    if what == "wet_days":
        return now + (np.maximum(seen, 0) - prior) / MONTH
    if what in ("blossom_frost", "browsed"):
        return np.clip(now + 100 * (seen - prior), 0, 100)
    if what == "ph":
        low = np.nan_to_num(study.traits.ph_low[option], nan=3.0)
        high = np.nan_to_num(study.traits.ph_high[option], nan=10.0)
        return np.abs(acidity.acidity_distance(seen, low, high))
    if what == "soil_depth":
        return now + seen - prior
    return np.asarray(seen, dtype=float)


def overrides(study: Study, evidence: Sequence[Evidence], place: int) -> dict[str, float]:
    """Measures at a place by factor as the evidence has them, to stand in for the study's."""
    return {
        factor_of(one): float(_measures(study, one, place, np.array([one.mean]))[0])
        for one in evidence
        if factor_of(one) in study.measures
    }


def factor_of(one: Evidence) -> str:
    """The factor that a piece of evidence corrects, an empty word where it is only a sign."""
    return WATCHED[one.what].factor if one.what in WATCHED else one.what


def rescored(study: Study, option: int, place: int, instead: Mapping[str, float]) -> float:
    """Score of an option at a place [0 to 1] with some measures replaced, NaN where ruled out.

    The curves, the weights and the trade-off are the study's own.
    """
    measures = _own_measures(study, option, place, 1)
    for number, factor in enumerate(study.factors):
        if factor.name in instead:
            measures[:, number] = instead[factor.name]
    return float(_scores(study, option, place, measures)[0])


def worth_at(
    study: Study,
    option: int,
    place: int,
    evidence: Sequence[Evidence] = (),
    count: int = DRAWS,
    seed: int = 1,
) -> Worth:
    """What a place is worth to an option, given what was seen there, and how sure that is.

    Every draw takes each factor seen from its posterior and each factor not seen from the map give
    or take its usual error; soil errs alike within one patch, weather and tree alike everywhere.
    """
    measures = _own_measures(study, option, place, count)
    known = {factor_of(one): one for one in evidence}
    for number, factor in enumerate(study.factors):
        z = _standard(study, factor.name, place, count, seed)
        if factor.name in known:
            one = known[factor.name]
            sd = one.sd if np.isfinite(one.sd) else 0.0
            measures[:, number] = _measures(study, one, place, one.mean + sd * z)
        elif factor.name in WATCHED_ALONE:
            what = WATCHED_ALONE[factor.name]
            prior = expected(study, what, place, option)
            drawn = prior.mean + prior.sd * z
            measures[:, number] = measure_seen(study, what, prior.mean, option, place, drawn)
        else:
            measures[:, number] += tenth(study, factor.name) * z
    own = _own_measures(study, option, place, 1)
    return Worth(
        place=place,
        mapped=float(_scores(study, option, place, own)[0]),
        score=rescored(study, option, place, overrides(study, evidence, place)),
        draws=_scores(study, option, place, measures),
    )


def _measures(study: Study, one: Evidence, place: int, seen: np.ndarray) -> np.ndarray:
    return measure_seen(study, one.what, one.prior.mean, one.option, place, seen)


def _own_measures(study: Study, option: int, place: int, count: int) -> np.ndarray:
    """The study's measures (draw, factor), the same in every draw."""
    own = [m[min(option, len(m) - 1), place] for m in study.measures.values()]
    return np.tile(np.array(own, dtype=float), (count, 1))


def _scores(study: Study, option: int, place: int, measures: np.ndarray) -> np.ndarray:
    """Scores (draw,) [0 to 1] of measures (draw, factor), NaN where ruled out."""
    if study.ruling.ruled_out[option, place]:
        return np.full(len(measures), np.nan)
    curves = [study.settings[factor.name].curve for factor in study.factors]
    worth = np.stack([desirability(measures[:, n], curve) for n, curve in enumerate(curves)])
    return power_mean.power_mean(worth, study.weights, study.trade_off)


def _standard(study: Study, factor: str, place: int, count: int, seed: int) -> np.ndarray:
    """Standard scores (draw,), of mean 0, the same for the same factor and ground."""
    where = patch_at(study, place) + 1_000_000 if factor in SOIL_FACTORS else place
    where = 0 if factor in ALIKE else where
    drawn = np.random.default_rng([seed, crc32(factor.encode()), where]).standard_normal(count)
    return drawn - drawn.mean()
