"""What the study answers: the options judged at one place, and what the map shows."""

from dataclasses import dataclass

import numpy as np

from model.decision import contributions, merit, power_mean
from model.ruling import Ruling

TIE = 0.01  # scores nearer than this are a tie: finer than any survey (common practice, no source)


@dataclass(frozen=True)
class Here:
    """The options judged at one place, best first in `order`, those ruled out last.

    Arrays are (option,) or (factor, option); `rank` is 0 where ruled out, `tied` where another
    option's score is within a tie's margin of the leader's, the leader among them.
    """

    place: int
    order: tuple[int, ...]
    score: np.ndarray
    rank: np.ndarray
    tied: np.ndarray
    ruled_out: np.ndarray
    reason: tuple[str, ...]
    measures: np.ndarray
    desirabilities: np.ndarray
    contributions: np.ndarray

    @property
    def allowed(self) -> np.ndarray:
        """Options that may stand here, best first (option,)."""
        return np.array([option for option in self.order if self.rank[option] > 0], dtype=int)


@dataclass(frozen=True)
class Layer:
    """What the map shows by place: 0 to 1, who leads there (-1 nobody) and what is ruled out."""

    label: str
    values: np.ndarray
    leader: np.ndarray
    ruled_out: np.ndarray


def judged(
    place: int,
    weights: np.ndarray,
    trade_off: float,
    worths: np.ndarray,
    ruled: Ruling,
    *measures: np.ndarray,
) -> Here:
    """The options at one place in order of merit.

    `worths` (factor, option, place) are desirabilities, `measures` (option or 1, place) the
    figures of each factor.
    """
    worth = worths[:, :, place].astype(float)
    score = power_mean.power_mean(worth, weights, trade_off)
    rank = merit.order(np.where(ruled.ruled_out[:, place], np.nan, score), TIE)
    figures = [np.broadcast_to(measure[:, place], score.shape) for measure in measures]
    return Here(
        place=place,
        order=tuple(np.lexsort((-np.nan_to_num(score), rank == 0)).tolist()),
        score=score,
        rank=rank,
        tied=(rank == 1) & ((rank == 1).sum() > 1),
        ruled_out=rank == 0,
        reason=tuple(ruled.reason(option, place) for option in range(score.size)),
        measures=np.stack(figures),
        desirabilities=worth,
        contributions=contributions.contributions(worth, weights, trade_off),
    )
