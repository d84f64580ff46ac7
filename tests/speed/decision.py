"""A moved weight and a moved trade-off against one plain matrix product over the same data."""

import numpy as np
from numpy.typing import NDArray

from model.decision import contributions, exponent, merit, tipping, weights

from .comparison import Comparison, times

FACTORS, OPTIONS, PLACES = 15, 60, 20_000
PRODUCT = "one plain BLAS product of the same data"


class Case:
    """Invented desirabilities of a size, a fifth of the pairs ruled out, and weights to move."""

    def __init__(self, factors: int, options: int, places: int, p: float = -0.7) -> None:
        rng = np.random.default_rng(1)
        self.p = p
        self.worths = rng.uniform(0.02, 1, (factors, options, places)).astype(np.float32)
        self.bars = merit.bars(rng.random((options, places)) < 0.2)
        self.u = merit.cube(list(self.worths), p, self.bars)
        self.w = weights.normalised(rng.uniform(0.2, 1, factors))
        self._flat = self.u.reshape(factors, -1)
        self._single = self.w.astype(np.float32)

    def product(self) -> NDArray[np.float32]:
        """The yardstick: what any weighted sum of these data must at least cost."""
        return self._single @ self._flat

    def best(self) -> tuple[NDArray, NDArray]:
        """New scores and best options after a weight moved."""
        return merit.best(merit.linear_scores(self.u, self.w))

    def leaders(self) -> merit.Leaders:
        """As `best`, with the score that people read and the ties."""
        return merit.leaders(merit.linear_scores(self.u, self.w), self.p)

    def rebuilt(self, p: float) -> NDArray[np.float32]:
        """The cube after the trade-off moved to p, in its old memory."""
        return merit.cube(list(self.worths), p, self.bars, out=self.u)


def comparisons() -> list[Comparison]:
    """Weight moves on the grid, a trade-off move, and what is shown for one place."""
    grid = Case(FACTORS, OPTIONS, PLACES)
    moves = times({"product": grid.product, "best": grid.best, "leaders": grid.leaders}, 61)
    exponents = (1.0, 0.0, -1.0, -0.7)
    rebuilds = times({f"{p:g}": lambda p=p: grid.rebuilt(p) for p in exponents}, 7)
    return [
        Comparison("new scores and best options", PRODUCT, moves["best"], moves["product"], 1.5),
        Comparison("the same, shown, with ties", PRODUCT, moves["leaders"], moves["product"]),
        *(
            Comparison(f"trade-off moved to {p}: new cube", PRODUCT, ms, moves["product"])
            for p, ms in rebuilds.items()
        ),
        *_one_place(grid, moves["product"]),
    ]


def _one_place(grid: Case, product: float) -> list[Comparison]:
    """What the page says of one place, against the same yardstick."""
    v = grid.worths[:, :, 0].astype(float)
    u = grid.u[:, :, 0].astype(float)
    shown = times(
        {
            "contributions": lambda: contributions.contributions(v, grid.w, grid.p),
            "tipping points of every factor": lambda: tipping.tipping_points(u, grid.w),
            "tipping points of the trade-off": lambda: exponent.exponent_tipping(v, grid.w),
        },
        7,
    )
    return [Comparison(f"one place: {name}", PRODUCT, ms, product) for name, ms in shown.items()]
