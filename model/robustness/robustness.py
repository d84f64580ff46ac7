"""How far a choice stands when weights and survey may be other than they are."""

from dataclasses import replace

import numpy as np

from model.decision.acceptability import acceptability, rank_acceptability
from model.decision.simplex import WeightRules, weight_samples, weights_near
from model.robustness.doubt import Doubt
from model.robustness.doubts import doubts
from model.robustness.hanging import factor_shares, hanging
from model.robustness.measuring import measuring
from model.robustness.outcome import Judgement, judgement, lead, standard_scores
from model.robustness.responding import Progress, response
from model.robustness.response import Response
from model.robustness.standing import BOTH, NEAR, SURVEY, WEIGHTS, Robustness
from model.robustness.words import sentences
from model.study import Study

# Dirichlet about the study's own weights: a weight of 10 % mostly (19 in 20) lies between 3 % and
# 20 % (model choice: common practice, no source).
CONCENTRATION = 50.0
DOTS = (np.arange(20) + 0.5) / 20  # quantile dots, as people count them: Kay et al. (2016)
ONE_IN_TWENTY = 0.05
SERVICES = "services"
NO_RULES = WeightRules({}, {}, {}, ())


def robustness(
    study: Study,
    place: int,
    rules: WeightRules = NO_RULES,
    count: int = 2000,
    seed: int = 1,
    progress: Progress | None = None,
) -> Robustness:
    """How far the choice at a place stands; the same for the same seed.

    `count` draws of the survey and as many of the weights are shared by all options. All pegs are
    tried at once and kept, so that the next one is there in no time.
    """
    found, judged = doubts(study), judgement(study)
    places = study.ground.places
    pegs = list(range(places.cells, places.x.size))
    tried = pegs if place in pegs else [place]
    answer = response(study, found, tried, progress)
    told = _told(answer, judged, found, tried.index(place), (rules, count, seed))
    named = replace(
        told,
        place=place,
        name=places.name(place),
        options=tuple(option.label for option in study.options),
        factors=tuple(factor.label for factor in study.factors),
        too_near_service=_too_near_service(study, place),
    )
    return replace(named, sentences=sentences(named))


def _told(
    answer: Response,
    judged: Judgement,
    found: tuple[Doubt, ...],
    at: int,
    asked: tuple[WeightRules, int, int],
) -> Robustness:
    """Everything but the names and the words."""
    rules, count, seed = asked
    z = standard_scores(count, len(found), seed)
    space = judged.space(*answer.at(at, z))
    now = judged.space(*answer.at(at, np.zeros((1, len(found)))))
    every = weight_samples(judged.weights.size, count, rules, seed)
    near = weights_near(judged.weights, count, CONCENTRATION, seed)
    scores, standing = judged.scores(space), judged.scores(now)[0]
    views = {
        WEIGHTS: judged.scores(now, every),
        NEAR: judged.scores(now, near),
        SURVEY: scores,
        BOTH: judged.scores(space, near),
    }
    central, confidence = _central(space, now, every)
    leader, second = _two_best(standing)
    return Robustness(
        *(at, "", (), (), found, rules != NO_RULES, leader, second),
        lead=float(lead(standing[None], leader)[0]) if leader >= 0 else 0.0,
        lead_off=_lead_off(standing, scores, leader, second),
        rank_shares={view: rank_acceptability(drawn) for view, drawn in views.items()},
        central_weights=central,
        usual_weights=every.mean(axis=0),
        confidence=confidence,
        dots=_dots(scores),
        ruled_share=np.isnan(scores).mean(axis=0),
        ruled_now=np.isnan(standing),
        ruled_by=_ruled_by(scores, z, found, answer.moving(at)),
        too_near_service=np.zeros(scores.shape[1], dtype=bool),
        factor_shares=factor_shares(space, judged.weights, leader, second)
        if second >= 0
        else np.zeros(judged.weights.size),
        hangs_on=hanging(answer, judged, found, at, max(leader, 0), seed),
        measure_next=measuring(scores, z, found, answer.moving(at)),
    )


def _central(
    space: np.ndarray, now: np.ndarray, every: np.ndarray
) -> tuple[np.ndarray, np.ndarray]:
    """Central weights (option, factor) as surveyed, and confidence (option,) in the doubt."""
    options, factors = now.shape[2], now.shape[1]
    central, confidence = np.full((options, factors), np.nan), np.zeros(options)
    may = np.flatnonzero(np.isfinite(now[0]).all(axis=0))
    if may.size:
        central[may] = acceptability(now[..., may], every).central_weights
    for option in may[np.isfinite(central[may]).all(axis=1)]:
        linear = np.nan_to_num(np.einsum("f,dfo->do", central[option], space), nan=-np.inf)
        confidence[option] = (linear.argmax(axis=1) == option).mean()
    return central, confidence


def _two_best(scores: np.ndarray) -> tuple[int, int]:
    """Numbers of the two best of scores (option,), -1 where there is none."""
    order = np.argsort(-np.nan_to_num(scores, nan=-np.inf), kind="stable")
    allowed = [int(option) for option in order if np.isfinite(scores[option])]
    first, second, *_ = [*allowed[:2], -1, -1]
    return first, second


def _lead_off(now: np.ndarray, scores: np.ndarray, leader: int, second: int) -> float:
    """What 19 draws in 20 take from a margin at most, of those in which both options may stand."""
    if second < 0:
        return 0.0
    apart = scores[:, leader] - scores[:, second]
    known = apart[np.isfinite(apart)]
    left = np.quantile(known, ONE_IN_TWENTY) if known.size else 0.0
    return max(float(now[leader] - now[second] - left), 0.0)


def _too_near_service(study: Study, place: int) -> np.ndarray:
    """Whether a service forbids each option at a place as surveyed (option,)."""
    near = np.zeros(len(study.options), dtype=bool)
    if any(factor.name == SERVICES for factor in study.factors):
        near |= study.measure(SERVICES)[:, place] < 0
    return near


def _ruled_by(
    scores: np.ndarray, z: np.ndarray, found: tuple[Doubt, ...], moving: np.ndarray
) -> tuple[str, ...]:
    """Label of the figure that goes most with being ruled out (option,); empty where none does."""
    ruled = np.isnan(scores) - np.isnan(scores).mean(axis=0)
    together = np.abs(z[:, moving].T @ ruled) if moving.size else np.zeros((1, scores.shape[1]))
    most = together.argmax(axis=0)
    return tuple(
        found[moving[most[option]]].label if together[most[option], option] > 0 else ""
        for option in range(scores.shape[1])
    )


def _dots(scores: np.ndarray) -> np.ndarray:
    """Twenty quantiles of each option's score while it may stand (option, 20), else NaN."""
    dots = np.full((scores.shape[1], DOTS.size), np.nan)
    for option, drawn in enumerate(scores.T):
        known = drawn[np.isfinite(drawn)]
        if known.size:
            dots[option] = np.quantile(known, DOTS)
    return dots
