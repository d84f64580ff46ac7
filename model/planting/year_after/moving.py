"""Keep or move a tree: what each comes to over its life, in score-years.

A score-year is a score of 1 for one year. Later years count for less, as money does.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from statistics import NormalDist

import numpy as np
from numpy.typing import ArrayLike, NDArray

UNIT_NORMAL = NormalDist()


@dataclass(frozen=True)
class Terms:
    """What a move is reckoned by; each of them: common practice, no source.

    `years` looked ahead: the useful life of a dwarf; a tree that lives longer gains more by a move,
    so that this errs on the side of keeping. `rate` at which later years count for less a year: as
    is usual for works that outlast a decade. `cost` of the work [score-years]: an afternoon for a
    tenth of a year's good. `margin` [score] below which two places are a tie: one point of 100,
    the smallest difference that is shown.
    """

    years: float = 20.0
    rate: float = 0.03
    cost: float = 0.1
    margin: float = 0.01


@dataclass(frozen=True)
class Chances:
    """How a tree takes a move: `survival` [0 to 1] and `lost` years of growth [yr].

    `behind` are the years by which a young tree comes after it that is planted in its stead should
    it die, at the cost of the work again, as growers fill a gap; infinite where none is planted.
    """

    survival: float
    lost: float
    behind: float = math.inf


@dataclass(frozen=True)
class Comparison:
    """Worth of staying, of moving now and of deciding next winter [score-years].

    `needed` is the survival from which a move pays, above 1 where none does.
    """

    stay: float
    move: float
    wait: float
    needed: float


def annuity(years: float, rate: float) -> float:
    """Worth today of 1 at the end of each of so many years; parts of a year in proportion.

    >>> round(annuity(15, 0.03), 4)
    11.9379
    """
    whole = math.floor(years)
    later = (1 + rate) ** -np.arange(1, whole + 2)
    return float(later[:whole].sum() + (years - whole) * later[whole])


def worth_of_staying(score: float, terms: Terms) -> float:
    """Worth of a tree left where it is: the sum of score / (1 + rate)**t over its years."""
    return score * annuity(terms.years, terms.rate)


def worth_of_moving(score: ArrayLike, chances: Chances, terms: Terms) -> NDArray[np.float64]:
    """Worth of a tree moved to places of some scores, or of the one that follows if it dies."""
    scores = np.asarray(score, dtype=float)
    lives = scores * _years_left(chances.lost, terms)
    follows = _following(scores, chances, terms)
    return chances.survival * lives + (1 - chances.survival) * follows - terms.cost


def survival_needed(stays: float, moves: float, chances: Chances, terms: Terms) -> float:
    """Survival at which moving comes to the same as staying, infinite where no move can pay."""
    follows = float(_following(np.asarray(moves), chances, terms))
    gained = moves * _years_left(chances.lost, terms) - follows
    short = worth_of_staying(stays, terms) + terms.cost - follows
    return short / gained if gained > 0 else math.inf


def worth_of_waiting(
    stays: np.ndarray, moves: np.ndarray, next_year: Chances, terms: Terms
) -> float:
    """Worth of another year of watching before the choice, which is made then as well as may be.

    `stays` and `moves` (draw,) are scores that may be true. A second year of watching is as good
    as the first, so that half of the variance is known by then: the expected value of sample
    information of Raiffa and Schlaifer (1961), Applied Statistical Decision Theory, for two acts
    whose difference is normal.
    """
    stay = worth_of_staying(1.0, terms)
    left = replace(terms, years=max(terms.years - 1, 0))
    soon = 1 / (1 + terms.rate)
    gains = soon * (worth_of_moving(moves, next_year, left) - worth_of_staying(1.0, left) * stays)
    mean, sd = float(gains.mean()), float(gains.std()) * math.sqrt(0.5)
    if sd <= 0:
        return stay * float(stays.mean()) + max(mean, 0.0)
    at = mean / sd
    return stay * float(stays.mean()) + mean * UNIT_NORMAL.cdf(at) + sd * UNIT_NORMAL.pdf(at)


def comparison(
    stays: np.ndarray, moves: np.ndarray, now: Chances, next_year: Chances, terms: Terms
) -> Comparison:
    """Staying, moving and waiting set against one another; scores (draw,) [0 to 1]."""
    here, there = float(np.mean(stays)), float(np.mean(moves))
    return Comparison(
        stay=worth_of_staying(here, terms),
        move=float(worth_of_moving(there, now, terms)),
        wait=worth_of_waiting(stays, moves, next_year, terms),
        needed=survival_needed(here, there, now, terms),
    )


def advice(compared: Comparison, gain: float, terms: Terms, doubted: Sequence[str] = ()) -> str:
    """Keep, move or wait; what lies within a tie's margin of staying is kept.

    A move that rests on an observation in doubt waits until it has been seen again.
    """
    margin = terms.margin * annuity(terms.years, terms.rate)
    if gain <= terms.margin:
        return "keep"
    if compared.move - compared.stay > margin:
        later = compared.wait - compared.move > margin
        return "wait" if later or doubted else "move"
    return "wait" if compared.wait - compared.stay > margin else "keep"


def _years_left(lost: float, terms: Terms) -> float:
    """Worth of 1 a year over the years that are left once so many are lost."""
    return annuity(terms.years, terms.rate) - annuity(min(lost, terms.years), terms.rate)


def _following(scores: NDArray[np.float64], chances: Chances, terms: Terms) -> NDArray[np.float64]:
    """Worth of the young tree that follows one that died, nothing where none is planted."""
    if chances.behind >= terms.years:
        return np.zeros_like(scores)
    return np.maximum(scores * _years_left(chances.behind, terms) - terms.cost, 0.0)
