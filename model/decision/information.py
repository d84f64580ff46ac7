"""What it is worth to know a figure better before choosing.

Raiffa and Schlaifer (1961), Applied Statistical Decision Theory, chapter 5; Strong, Oakley and
Brennan (2014), Medical Decision Making 34(3), 311-326, for many alternatives.
"""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.stats import norm

Floats = NDArray[np.float64]

_KNOTS = 6
_ROUNDING = 1e-9  # part of the utilities' spread below which nothing is gained


class Information(NamedTuple):
    """What measuring brings: utility gained on average, and chance that the choice changes.

    Both are needed: between two that are nearly level the choice changes often and gains nothing.
    """

    gain: Floats | float
    change: Floats | float


def unit_normal_loss(z: ArrayLike) -> Floats:
    """Mean of what a standard normal variable exceeds z by, 0 where it does not."""
    at = np.asarray(z, dtype=float)
    return norm.pdf(at) - at * norm.sf(at)


def known_sd(sd: ArrayLike, instrument_sd: ArrayLike) -> Floats:
    """How far the estimate of a figure is going to move once it is measured [the figure's unit].

    The standard deviation of its mean after measuring, as seen before: all of sd with a perfect
    instrument, nothing with a useless one.
    """
    before = np.asarray(sd, dtype=float)
    total = np.hypot(before, instrument_sd)
    return np.divide(before**2, total, out=np.zeros_like(total), where=total > 0)


def margin_worth(margin: ArrayLike, moves: ArrayLike) -> Information:
    """Worth of measuring for two alternatives, one ahead by a margin on average [utility].

    `moves` [utility]: standard deviation by which measuring moves the margin. All the margin's
    own: worth of knowing everything. A factor's weight times `known_sd` of the difference in it:
    worth of measuring that factor, since the margin is linear in it. Normal errors.
    """
    lead, sd = np.broadcast_arrays(np.abs(np.asarray(margin, float)), np.asarray(moves, float))
    moved = sd > 0
    z = np.divide(lead, sd, out=np.full(lead.shape, np.inf), where=moved)
    loss = np.where(moved, sd * unit_normal_loss(np.where(moved, z, 0)), 0)
    return Information(loss, norm.sf(z))


def worth_of_measuring(
    utilities: ArrayLike, value: ArrayLike, instrument_sd: float = 0.0, seed: int = 1
) -> Information:
    """Worth of measuring one uncertain figure before choosing among many alternatives.

    `utilities` (draw, alternative), finite, and `value` (draw,) [its unit] are drawn together;
    `instrument_sd` is the error of what would measure it. Readings are drawn about the values, and
    each alternative's lead over today's choice is regressed on them: what is gained is that the
    best after the reading is chosen and not the best on average. A lead that no regression
    explains better than its mean does stays at its mean, so that chance in the draws is not taken
    for knowledge.
    """
    scores, figure = np.asarray(utilities, dtype=float), np.asarray(value, dtype=float)
    leads = scores - scores[:, [int(scores.mean(axis=0).argmax())]]
    reading = figure + instrument_sd * _errors(len(figure), seed) if instrument_sd else figure
    best = np.maximum(_regressed(leads, reading).max(axis=1), 0)
    best[best <= _ROUNDING * np.abs(leads).max()] = 0
    return Information(float(best.mean()), float((best > 0).mean()))


def worth_first(found: Sequence[Information], effort: ArrayLike = 1.0) -> NDArray[np.intp]:
    """Numbers of what to measure, the most gained for its effort first; then what changes more.

    `effort`: hours, or whatever a measurement costs, of each or of all alike.
    """
    gain, change = (np.array([one[part] for one in found], dtype=float) for part in (0, 1))
    return np.lexsort((-change, -gain / np.asarray(effort, dtype=float)))


def _errors(count: int, seed: int) -> Floats:
    """Standard normal errors (count,), evenly spread over all sizes, in random order."""
    return np.random.default_rng(seed).permutation(norm.ppf((np.arange(count) + 0.5) / count))


def _regressed(leads: Floats, reading: Floats) -> Floats:
    """Leads (draw, alternative) as expected from the reading (draw,).

    Each by its mean, a straight line or a natural cubic spline, whichever has the least Bayesian
    information criterion: Schwarz (1978), Annals of Statistics 6(2), 461-464. A parameter costs
    twice as much as there, since one in hundreds of leads and figures is bound to look explained.
    """
    count = len(reading)
    fitted = np.broadcast_to(leads.mean(axis=0), leads.shape).copy()
    least = _criterion(leads - fitted, 1)
    spread = reading.std()
    if spread <= _ROUNDING * np.abs(reading).max():
        return fitted
    standard = (reading - reading.mean()) / spread
    for basis in (standard[:, None], _spline(standard)):
        columns = np.hstack([np.ones((count, 1)), basis])
        if columns.shape[1] >= count:
            continue
        tried = columns @ np.linalg.lstsq(columns, leads, rcond=None)[0]
        criterion = _criterion(leads - tried, columns.shape[1])
        better = criterion < least
        fitted[:, better], least[better] = tried[:, better], criterion[better]
    return fitted


def _criterion(residuals: Floats, parameters: int) -> Floats:
    """Bayesian information criterion (alternative,) of normal residuals (draw, alternative)."""
    count = len(residuals)
    squares = np.maximum((residuals**2).sum(axis=0), np.finfo(float).tiny)
    return count * np.log(squares / count) + 2 * parameters * np.log(count)


def _spline(x: Floats) -> Floats:
    """Natural cubic spline basis (draw, column) of x (draw,), knots at even quantiles.

    Hastie, Tibshirani and Friedman (2009), Elements of Statistical Learning, equation 5.4.
    """
    knots = np.unique(np.quantile(x, np.linspace(0.02, 0.98, _KNOTS)))
    if len(knots) < 3:
        return x[:, None]
    cubes = np.maximum(x[:, None] - knots, 0) ** 3
    bends = (cubes[:, :-1] - cubes[:, -1:]) / (knots[-1] - knots[:-1])
    return np.hstack([x[:, None], bends[:, :-1] - bends[:, -1:]])
