"""Several people's weights: what they have in common, where they part, and whom a choice hurts.

Only ratios of weights mean anything, so weights are compared by their logarithms. A factor that is
NaN in a ballot was left out of it: nothing is concluded from it. A share below a floor, 0 above
all, is taken as the floor, so that one person's zero cannot wipe a factor out for all.

Aczel and Saaty (1983), J. Math. Psychology 27, 93-102; Aitchison (1986), The Statistical Analysis
of Compositional Data, chapter 4; Kendall and Babington Smith (1939), Ann. Math. Stat. 10, 275-287.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.stats import chi2, rankdata

Floats = NDArray[np.float64]

FLOOR = 0.1  # of an equal share: hardly counts, but can be outvoted (common practice, no source)


class Concordance(NamedTuple):
    """Kendall's W, 0 to 1, its chi-square, the chance of that much by luck, and mean Spearman r."""

    w: float
    chi_square: float
    chance: float
    correlation: float


def floored(weights: ArrayLike) -> Floats:
    """Shares (ballot, factor) of each ballot's total, none below the floor; NaN where left out.

    A factor that no ballot gives any weight is left out of all.
    """
    given = np.array(weights, dtype=float)
    given[:, ~(np.nan_to_num(given) > 0).any(axis=0)] = np.nan
    judged = (~np.isnan(given)).sum(axis=1, keepdims=True)
    total = np.nansum(given, axis=1, keepdims=True)
    if not (total > 0).all():
        raise ValueError("weights of a group: found a ballot without any, expected some in each")
    return np.fmax(given / total, np.where(np.isnan(given), np.nan, FLOOR / judged))


def consensus(weights: ArrayLike) -> Floats:
    """The common weights (factor,), together 1, of weights (ballot, factor).

    The closed geometric mean where every ballot weighs every factor: the only mean that keeps
    ratios when they are read the other way round. Where factors were left out, the least squares
    fit of one set of log ratios to those that were given.
    """
    common = np.exp(_common_logs(np.log(floored(weights))))
    return np.nan_to_num(common / np.nansum(common))


def departures(weights: ArrayLike) -> Floats:
    """Log of each share against the common one (ballot, factor), centred in each ballot.

    A ballot's root sum of squares is its Aitchison distance from the consensus.
    """
    logs = np.log(floored(weights))
    apart = logs - _common_logs(logs)
    return apart - np.nanmean(apart, axis=1, keepdims=True)


def variances(weights: ArrayLike) -> Floats:
    """How far the ballots part over each factor (factor,): variance of its centred log share.

    With no factor left out they add up to the total variance, the mean squared distance from the
    consensus; ratios count, so shares near nothing part far: show the plain shares beside it.
    """
    squares = departures(weights) ** 2
    return np.nansum(squares, axis=0) / np.maximum((~np.isnan(squares)).sum(axis=0), 1)


def disagreement(weights: ArrayLike) -> Floats:
    """Share of all disagreement that each factor carries (factor,), together 1, or 0 if none."""
    apart = variances(weights)
    total = apart.sum()
    return apart / total if total > np.finfo(float).eps else np.zeros_like(apart)


def distances(weights: ArrayLike) -> Floats:
    """Aitchison distance between every two ballots (ballot, ballot) over what both weigh."""
    logs = np.log(floored(weights))
    apart = logs[:, None] - logs[None]
    shared = ~np.isnan(apart)
    mean = np.nansum(apart, axis=2) / np.maximum(shared.sum(axis=2), 1)
    return np.sqrt(np.nansum((apart - mean[..., None]) ** 2, axis=2))


def kendall_w(scores: ArrayLike) -> Concordance:
    """How alike judges order the items, from scores or ranks (judge, item), corrected for ties.

    NaN where there is nothing to order: fewer than two items, or all judges see all items level.
    The chi-square is rough below 8 items.
    """
    ranks = rankdata(np.asarray(scores, dtype=float), axis=1)
    judges, items = ranks.shape
    squares = ((ranks.sum(axis=0) - judges * (items + 1) / 2) ** 2).sum()
    counts = (ranks[:, :, None] == ranks[:, None, :]).sum(axis=2)
    ties = (counts**2 - 1).sum()  # over items, which is t**3 - t over each run of t ties
    most = judges**2 * (items**3 - items) - judges * ties
    if most <= 0:
        return Concordance(np.nan, np.nan, np.nan, np.nan)
    w = 12 * squares / most
    chi_square = judges * (items - 1) * w
    correlation = (judges * w - 1) / (judges - 1) if judges > 1 else 1.0
    chance = chi2.sf(chi_square, items - 1)
    return Concordance(float(w), float(chi_square), float(chance), float(correlation))


def regrets(scores: ArrayLike, best: ArrayLike | None = None) -> Floats:
    """The most that any ballot loses by each alternative (alternative,) in its own score.

    `scores` (ballot, alternative), NaN where ruled out; `best` (ballot,) is what a ballot could
    have had, else its highest score. The least of the worst regrets: Savage (1951), J. Am. Stat.
    Assoc. 46, 55-67.
    """
    values = np.asarray(scores, dtype=float)
    top = np.fmax.reduce(values, axis=1) if best is None else np.asarray(best, dtype=float)
    lost = np.maximum(top[:, None] - values, 0)
    return np.where(np.isnan(values).any(axis=0), np.nan, np.fmax.reduce(lost, axis=0))


def _common_logs(logs: Floats) -> Floats:
    """Log weights (factor,) that fit logs (ballot, factor) best, each ballot to its own scale."""
    given = ~np.isnan(logs)
    known = np.where(given, logs, 0.0)
    per_ballot = given.sum(axis=1)
    normal = np.diag(given.sum(axis=0)) - given.T @ (given / per_ballot[:, None])
    pull = known.sum(axis=0) - given.T @ (known.sum(axis=1) / per_ballot)
    return np.where(given.any(axis=0), np.linalg.pinv(normal, hermitian=True) @ pull, np.nan)
