"""Tipping points: how far a weight may move before another alternative leads.

In Box-Cox space every score is a straight line in the share t that a factor, or a family moved as
a block, takes of all weight. Leaders are therefore the upper envelope of straight lines, and its
corners are exact for every exponent. An alternative is an option, a place, or a pair of both.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from .power_mean import Floats, inverse_box_cox, weighted_parts
from .weights import block_moved

_ROUNDING = 1e-12  # leads over a shorter stretch than this are rounding, not leads


class Leads(NamedTuple):
    """Who leads where: leaders[i] from ends[i] to ends[i + 1].

    ends (n + 1,): share of weight, or exponent; leaders (n,): index of an alternative, -1 if all
    are ruled out. Of alternatives equal all along, the first is named: the order of merit tells
    that they are tied.
    """

    ends: NDArray[np.float64]
    leaders: NDArray[np.intp]


class Tipping(NamedTuple):
    """Shares of weight between which today's leader stays, and who leads beyond.

    below, above: index of the alternative that takes over under low and over high, -1 if none.
    """

    low: float
    high: float
    below: int
    above: int
    now: float
    leader: int


def envelope(
    u_here: ArrayLike, w: ArrayLike, members: ArrayLike, ruled_out: ArrayLike | None = None
) -> Leads:
    """Who leads at every share from 0 to 1 that the members together take of the weight.

    u_here: Box-Cox space (factor, alternative); w (factor,); members bool (factor,); ruled_out bool
    (alternative,). What is ruled out or unknown (NaN) never leads.
    """
    without, alone = _ends_of_lines(u_here, w, members)
    barred = ~np.isfinite(without + alone)
    if ruled_out is not None:
        barred |= np.asarray(ruled_out)
    if barred.all():
        return Leads(np.array([0.0, 1.0]), np.array([-1]))
    allowed = np.flatnonzero(~barred)
    without, alone = without[allowed], alone[allowed]
    leaders = [int(np.lexsort((alone, without))[-1])]
    ends = [0.0]
    while True:
        share, leader = _overtaking(without, alone, leaders[-1])
        if share >= 1 - _ROUNDING:
            return Leads(np.array([*ends, 1.0]), allowed[leaders])
        if share - ends[-1] > _ROUNDING:
            ends.append(share)
            leaders.append(leader)
        else:
            leaders[-1] = leader


def stay(
    u_here: ArrayLike, w: ArrayLike, members: ArrayLike, ruled_out: ArrayLike | None = None
) -> Tipping:
    """How far the members' share may move with today's leader staying; arguments as `envelope`."""
    ends, leaders = envelope(u_here, w, members, ruled_out)
    now = float(np.asarray(w, float)[np.asarray(members, bool)].sum())
    k = int(np.clip(np.searchsorted(ends, now, side="right") - 1, 0, len(leaders) - 1))
    return Tipping(
        low=float(ends[k]),
        high=float(ends[k + 1]),
        below=int(leaders[k - 1]) if k > 0 else -1,
        above=int(leaders[k + 1]) if k + 1 < len(leaders) else -1,
        now=now,
        leader=int(leaders[k]),
    )


def tipping_points(
    u_here: ArrayLike,
    w: ArrayLike,
    families: ArrayLike | None = None,
    ruled_out: ArrayLike | None = None,
) -> list[Tipping]:
    """Tipping of every factor, or of every family if families (factor,) numbers them from 0."""
    blocks = np.arange(np.size(w)) if families is None else np.asarray(families)
    return [stay(u_here, w, blocks == block, ruled_out) for block in range(blocks.max() + 1)]


def trajectories(
    u_here: ArrayLike, w: ArrayLike, members: ArrayLike, t: ArrayLike, p: float
) -> Floats:
    """Displayed scores (alternative, n) when the members together take each share of t (n,)."""
    without, alone = _ends_of_lines(u_here, w, members)
    shares = np.asarray(t, dtype=float)
    return inverse_box_cox(np.outer(without, 1 - shares) + np.outer(alone, shares), p)


def _ends_of_lines(u_here: ArrayLike, w: ArrayLike, members: ArrayLike) -> tuple[Floats, Floats]:
    """Linear scores (alternative,) without the members, at share 0, and by them alone, at 1.

    Both ends are kept, not one and a slope, since at low exponents one dwarfs the other.
    """
    u = np.asarray(u_here, dtype=float)
    without = weighted_parts(u, block_moved(w, members, 0)).sum(axis=0)
    alone = weighted_parts(u, block_moved(w, members, 1)).sum(axis=0)
    return without, alone


def _overtaking(without: Floats, alone: Floats, leader: int) -> tuple[float, int]:
    """Share at which the leader is first overtaken as its share grows, and by whom (inf if never).

    Where several lines meet there, the steepest of them leads on.
    """
    behind = without[leader] - without
    climb = behind + (alone - alone[leader])
    crossing = np.full(len(climb), np.inf)
    np.divide(behind, climb, out=crossing, where=climb > 0)
    share = float(crossing.min())
    return share, int(np.where(crossing <= share + _ROUNDING, climb, -np.inf).argmax())
