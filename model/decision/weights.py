"""Weights: shares of the factors, never negative, together 1."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

Weights = NDArray[np.float64]

_NOTHING = 1e-12  # a total too small to hold proportions


def equal(n: int) -> Weights:
    """Weights of n factors that all count the same."""
    return np.full(n, 1 / n)


def normalised(w: ArrayLike) -> Weights:
    """Weights in proportion to w (factor,), equal if all are 0."""
    parts = np.asarray(w, dtype=float)
    if not (np.isfinite(parts).all() and (parts >= 0).all()):
        raise ValueError(f"weights: found {parts.tolist()}, expected numbers of 0 or more")
    total = parts.sum()
    return parts / total if total > _NOTHING else equal(len(parts))


def block_moved(w: ArrayLike, members: ArrayLike, share: float) -> Weights:
    """Weights after the members (factor,) bool together take a share [0 to 1], the others the rest.

    Proportions are kept on both sides; where a side has no weight to scale, it shares equally. A
    block of all factors, or of none, has nothing to trade with and stays as it is.
    """
    if not 0 <= share <= 1:
        raise ValueError(f"a share of weight: found {share}, expected 0 to 1")
    before = normalised(w)
    inside = np.asarray(members, dtype=bool)
    if inside.all() or not inside.any():
        return before
    after = np.empty_like(before)
    after[inside] = share * normalised(before[inside])
    after[~inside] = (1 - share) * normalised(before[~inside])
    return after


def moved(w: ArrayLike, k: int, share: float) -> Weights:
    """Weights after factor k takes a share [0 to 1]; the others keep their proportions."""
    return block_moved(w, np.arange(np.size(w)) == k, share)


def carried(w: ArrayLike, known: ArrayLike, own: ArrayLike) -> Weights:
    """Weights (factor,) in the proportions of w where known; the others keep their share of own."""
    old, new = np.asarray(known, dtype=bool), normalised(own)
    return block_moved(np.where(old, w, new), ~old, new[~old].sum())


def family_shares(w: ArrayLike, families: ArrayLike) -> Weights:
    """Share (family,) of each family; families: number from 0 of each factor's family (factor,)."""
    return np.bincount(np.asarray(families), weights=np.asarray(w, float)).astype(float)


def family_moved(w: ArrayLike, families: ArrayLike, f: int, share: float) -> Weights:
    """Weights after family f takes a share [0 to 1]; proportions inside and outside are kept."""
    return block_moved(w, np.asarray(families) == f, share)
