"""Where the lead changes with the trade-off exponent, the weights standing still."""

from collections.abc import Callable
from itertools import pairwise

import numpy as np
from numpy.typing import ArrayLike
from scipy.optimize import brentq

from .power_mean import HIGHEST_EXPONENT, LOWEST_EXPONENT, Floats, power_mean, weighted_parts
from .tipping import Leads

Scores = Callable[[float], Floats]

_TIED = 1e-12  # a lead smaller than this is rounding: whoever led before still does


def exponent_tipping(
    v_here: ArrayLike, w: ArrayLike, ruled_out: ArrayLike | None = None, step: float = 0.05
) -> Leads:
    """Who leads from the lowest exponent to the highest, for desirabilities above 0.

    v_here (factor, alternative); w (factor,); ruled_out bool (alternative,). Scores are no straight
    lines in the exponent and may cross more than once: leaders are compared at every step, then the
    exact exponent is found between. A lead that comes and goes within one step is not seen.
    """
    v = np.asarray(v_here, dtype=float)
    barred = ~np.isfinite(weighted_parts(v, w).sum(axis=0))
    if ruled_out is not None:
        barred |= np.asarray(ruled_out)
    if barred.all():
        return Leads(np.array([LOWEST_EXPONENT, HIGHEST_EXPONENT]), np.array([-1]))

    def scores(p: float) -> Floats:
        return np.where(barred, -1, power_mean(v, w, p))

    # Downwards, because the more the weakest value decides, the more alternatives are tied.
    n = round((HIGHEST_EXPONENT - LOWEST_EXPONENT) / step) + 1
    grid = np.linspace(HIGHEST_EXPONENT, LOWEST_EXPONENT, n)
    found = [(HIGHEST_EXPONENT, int(scores(HIGHEST_EXPONENT).argmax()))]
    for high, low in pairwise(grid.tolist()):
        found += _successions(scores, found[-1][1], high, low)
    ends, leaders = zip(*reversed(found), strict=True)
    return Leads(np.array([LOWEST_EXPONENT, *ends]), np.array(leaders))


def _successions(scores: Scores, leader: int, high: float, low: float) -> list[tuple[float, int]]:
    """Exponents, falling, at which a leader loses the lead between high and low, and to whom."""
    rival = _overtaker(scores(low), leader)
    if rival is None:
        return []
    meeting = _meeting(scores, leader, rival, high, low)
    if _overtaker(scores(meeting), leader) is None:
        return [(meeting, rival)]
    # Where these two meet, a third has already passed both.
    before = _successions(scores, leader, high, meeting)
    return before + _successions(scores, before[-1][1], meeting, low)


def _overtaker(scores: Floats, leader: int) -> int | None:
    """Alternative that leads instead of the leader, if any does by more than rounding."""
    first = int(scores.argmax())
    return first if scores[first] > scores[leader] + _TIED else None


def _meeting(scores: Scores, leader: int, rival: int, high: float, low: float) -> float:
    """Exponent at which two alternatives score the same, the leader having led at high."""

    def lead(p: float) -> float:
        here = scores(p)
        return float(here[leader] - here[rival])

    return high if lead(high) <= 0 else float(brentq(lead, low, high, xtol=1e-12))
