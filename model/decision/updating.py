"""What is believed after a look: prior belief and observation put together.

Gelman, Carlin, Stern and Rubin (2004), Bayesian Data Analysis, 2nd edition, sections 2.4 to 2.6.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]


class Belief(NamedTuple):
    """A figure as believed, its standard deviation, and how far off the observation was.

    `surprise`: standard deviations between what was seen and what was expected, of all that could
    part them, the observation's own error too. Beyond 2 either way, look at the map or the meter
    before believing the mean of both.
    """

    mean: Floats
    sd: Floats
    surprise: Floats


def normal_update(mean: ArrayLike, sd: ArrayLike, seen: ArrayLike, seen_sd: ArrayLike) -> Belief:
    """Belief in a figure [its unit] once it has been seen; arrays of any shapes that go together.

    `seen_sd` is all that parts the observation from the figure: the instrument's error, and for
    one season also how far seasons differ. Both errors normal; one of them above 0.
    """
    before, look = np.asarray(sd, float) ** 2, np.asarray(seen_sd, float) ** 2
    expected = np.asarray(mean, float)
    off = np.asarray(seen, float) - expected
    trust = before / (before + look)
    return Belief(expected + trust * off, np.sqrt(trust * look), off / np.sqrt(before + look))


def beta_update(mean: ArrayLike, sd: ArrayLike, hits: ArrayLike, trials: ArrayLike) -> Belief:
    """Belief in a share [0 to 1] once some hits were counted in some trials.

    The prior is the beta distribution with this mean and standard deviation; ValueError where none
    has them, which is from sd**2 = mean (1 - mean) upwards.
    """
    expected, variance = np.asarray(mean, float), np.asarray(sd, float) ** 2
    most = expected * (1 - expected)
    if not ((variance > 0) & (variance < most)).all():
        raise ValueError(
            f"belief in a share: found {mean!r} plus or minus {sd!r}, expected a mean "
            "between 0 and 1 and a standard deviation above 0 and below the root of "
            "mean (1 - mean), mend by giving a smaller standard deviation"
        )
    size = most / variance - 1  # as if so many trials had been seen before
    k, n = np.asarray(hits, float), np.asarray(trials, float)
    after = (size * expected + k) / (size + n)
    spread = np.sqrt(n * most * (size + n) / (size + 1))
    surprise = np.divide(k - n * expected, spread, out=np.zeros_like(spread), where=spread > 0)
    return Belief(after, np.sqrt(after * (1 - after) / (size + n + 1)), surprise)
