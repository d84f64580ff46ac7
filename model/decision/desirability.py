"""Desirability: how good a measured figure is for this purpose, from 0 to 1."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

# A merely poor value stays above 0: at exponents of 0 and below, a single 0 would decide the whole
# score, and a hard no is the business of the rule-outs, which carry a reason.
FLOOR = 0.02


@dataclass(frozen=True)
class Curve:
    """Knots of a piecewise linear desirability curve, held flat beyond its ends.

    x: measure at each knot, ascending [the measure's unit]; y: desirability there [0 to 1].
    """

    x: tuple[float, ...]
    y: tuple[float, ...]

    def __post_init__(self) -> None:
        if len(self.x) != len(self.y) or len(self.x) < 2:
            raise ValueError(
                f"a desirability curve: found {len(self.x)} measures and {len(self.y)} "
                "desirabilities, expected two or more knots, mend by giving each knot one of both"
            )
        if not (np.isfinite(self.x).all() and (np.diff(self.x) > 0).all()):
            raise ValueError(
                f"a desirability curve: found measures {self.x}, expected each above the one "
                "before, mend by sorting the knots and dropping repeated ones"
            )
        if not all(0 <= y <= 1 for y in self.y):
            raise ValueError(
                f"a desirability curve: found desirabilities {self.y}, expected 0 to 1, "
                "mend by moving the knots into that range"
            )


def desirability(measure: NDArray[np.floating] | float, curve: Curve) -> NDArray[np.float64]:
    """Desirability of a measure of any shape [its unit]; NaN stays NaN, nothing is below FLOOR.

    With two or three knots these are the linear desirability functions of Derringer and Suich
    (1980), Journal of Quality Technology 12(4), 214-219.
    """
    return np.maximum(np.interp(measure, curve.x, curve.y), FLOOR)
