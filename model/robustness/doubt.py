"""One figure that may be other than it was written: what it is, and by how much it may be off."""

from dataclasses import dataclass, field

import numpy as np

WIDEST = 2.0  # standard deviations: nothing is taken further off than its plus-minus


@dataclass(frozen=True)
class Subject:
    """Whose figure it is: a feature by its number, the general soil (-1), or a rootstock."""

    feature: int = -1
    attribute: str = ""
    rootstock: str = ""


@dataclass(frozen=True)
class Doubt:
    """A figure in doubt.

    `below` and `above` are a standard deviation to either side, `low` and `high` what the figure
    can be at all, `better` the standard deviation once it was measured `by` some means (all in
    `unit`; NaN and empty where nothing can measure it beforehand). `given` says whether the survey
    or the catalogue gave its spread, else `source` is what was assumed.
    """

    name: str
    label: str
    value: float
    below: float
    above: float
    unit: str
    given: bool
    source: str
    subject: Subject
    low: float = -np.inf
    high: float = np.inf
    better: float = np.nan
    by: str = field(default="")

    @property
    def sd(self) -> float:
        """Standard deviation, the mean of both sides [its unit]."""
        return (self.below + self.above) / 2

    @property
    def measurable(self) -> bool:
        """Whether anybody can measure it now, and better than it is known."""
        return bool(self.by) and self.better < self.sd

    def at(self, z: np.ndarray | float) -> np.ndarray:
        """The figure at standard scores z, same shape, kept to what it can be [its unit]."""
        score = np.clip(z, -WIDEST, WIDEST)
        off = np.where(score < 0, self.below, self.above) * score
        return np.clip(self.value + off, self.low, self.high)

    def score_of_error(self) -> float:
        """Standard deviation of the better measurement as a standard score."""
        return self.better / self.sd
