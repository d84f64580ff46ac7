"""What would change with the trade-off: each option's score as the exponent runs, and who leads."""

from typing import NamedTuple

import numpy as np

from model.decision.exponent import exponent_tipping
from model.decision.power_mean import power_mean
from model.results import Here


class TradeOffChart(NamedTuple):
    """Scores (option, exponent) [0 to 1] of the options allowed, best first, over the exponents.

    `crossings` holds each exponent at which the lead passes from one option to another; options
    are counted in the order of merit.
    """

    exponents: np.ndarray
    scores: np.ndarray
    crossings: tuple[tuple[float, int, int], ...]


def trade_off_chart(here: Here, weights: np.ndarray, exponents: np.ndarray) -> TradeOffChart:
    """The chart for the options allowed at a place."""
    worths = here.desirabilities[:, here.allowed]
    scores = np.stack([power_mean(worths, weights, float(p)) for p in exponents], axis=1)
    leads = exponent_tipping(worths, weights)
    between = zip(leads.ends[1:-1], leads.leaders[:-1], leads.leaders[1:], strict=True)
    crossings = tuple((float(at), int(before), int(after)) for at, before, after in between)
    return TradeOffChart(exponents, scores, crossings)
