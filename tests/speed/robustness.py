"""Ten thousand weightings ranked, against the plain matrix product that scores them."""

import numpy as np

from model.decision.acceptability import acceptability
from model.decision.simplex import weight_samples

from .comparison import Comparison, times


def comparisons() -> list[Comparison]:
    """Rank shares, central weights and confidence of 60 alternatives by 19 factors."""
    u = np.log(np.random.default_rng(1).uniform(0.02, 1, (1, 19, 60)))
    w = weight_samples(19, 10_000)
    taken = times({"ours": lambda: acceptability(u, w), "product": lambda: w @ u[0]}, rounds=5)
    return [
        Comparison(
            "10,000 weightings \N{MULTIPLICATION SIGN} 60 alternatives ranked",
            "the scores alone, one matrix product",
            taken["ours"],
            taken["product"],
        )
    ]
