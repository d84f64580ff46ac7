"""What the study answers: the options judged at one place, and what the map shows."""

from dataclasses import dataclass

import numpy as np

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
