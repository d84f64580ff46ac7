"""How far a choice stands: every figure that the sentences and the plots need."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
import pandas as pd

from model.results import TIE
from model.robustness.doubt import Doubt

WEIGHTS, NEAR, SURVEY, BOTH = "all weightings", "weightings near yours", "survey", "both"


@dataclass(frozen=True, eq=False)
class Robustness:
    """What becomes of the choice at a place.

    `leader` and `second` number the options that lead as things stand (-1 where none can);
    `lead` is the margin between them [score], `lead_off` what the survey's doubt may take from it
    (19 times in 20 no more) while both may stand. `rank_shares` by view (option, rank): over all
    weightings that keep the rules, those near the study's own, the survey's doubt, and both of the
    latter. `central_weights` (option, factor) are the mean weights at which an option leads (NaN:
    never), `usual_weights` (factor,) the mean of all weightings, `confidence` (option,) how often
    it leads at its central weights in the survey's doubt. `dots` (option, 20) are quantiles of the
    score in the survey's doubt while it may stand, `ruled_share` (option,) how often it may not,
    `ruled_now` (option,) whether it may not as surveyed, `ruled_by` (option,) the figure that most
    decides it, `too_near_service` (option,) whether a service forbids it as surveyed.
    `factor_shares` (factor,) is what each factor has in how the lead varies;
    `hangs_on` and `measure_next` are tables by figure.
    """

    place: int
    name: str
    options: tuple[str, ...]
    factors: tuple[str, ...]
    doubts: tuple[Doubt, ...]
    has_rules: bool
    leader: int
    second: int
    lead: float
    lead_off: float
    rank_shares: Mapping[str, np.ndarray]
    central_weights: np.ndarray
    usual_weights: np.ndarray
    confidence: np.ndarray
    dots: np.ndarray
    ruled_share: np.ndarray
    ruled_now: np.ndarray
    ruled_by: tuple[str, ...]
    too_near_service: np.ndarray
    factor_shares: np.ndarray
    hangs_on: pd.DataFrame
    measure_next: pd.DataFrame
    sentences: tuple[str, ...] = ()

    @property
    def is_tied(self) -> bool:
        """Whether the lead is no larger than a tie's margin or than the survey's error."""
        return self.second >= 0 and self.lead <= max(TIE, self.lead_off)

    def best_share(self, view: str) -> np.ndarray:
        """How often each option is best in a view (option,) [share]."""
        return self.rank_shares[view][:, 0]
