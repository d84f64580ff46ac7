"""Where the trees of an order may stand: the pegs, and the best of the land between them.

A few places, well apart, in place of all cells: an order of ten trees among 150 places is placed to
a proven optimum in seconds, and nobody sets out a tree to a hand's breadth.
"""

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from model.decision import power_mean
from model.decision.desirability import desirability
from model.language import marked
from model.planting.order import Order
from model.planting.partnership import pollen_at_least
from model.study import Study

Array = np.ndarray
MOST = 150  # places in all
WIDE, CLOSE = 8.0, 4.0  # [m] between places: half of them spread wide, the rest set between
SAME_HOLE = 2.0  # [m] within which another place is no other hole (common practice, no source)
DIGITS = 9  # of a score, beyond which two places are alike and the first in order is taken
POINTS = (
    marked("north"), marked("north-east"), marked("east"), marked("south-east"),
    marked("south"), marked("south-west"), marked("west"), marked("north-west"),
)  # fmt: skip


@dataclass(frozen=True)
class Candidate:
    """A place that an order may use, by the study's number, and its name in words."""

    place: int
    name: str


def candidate_places(
    study: Study, order: Order, *, between: bool = True, most: int = MOST
) -> tuple[Candidate, ...]:
    """Every peg where a tree of the order may stand and, `between` them, the best of the grid.

    A cell counts for what the kind of tree that likes it best finds there, against the best that
    the kind finds anywhere; so a kind that scores low everywhere has its places too.
    """
    places, options = study.ground.places, list(order.options)
    everywhere = np.arange(places.x.size)
    scores = placing_scores(study, everywhere)[options]
    open_ = np.isfinite(scores).any(axis=0)
    chosen = [int(peg) for peg in everywhere[places.cells :] if open_[peg]]
    if between:
        best = np.where(np.isfinite(scores), scores, -np.inf).max(axis=1, keepdims=True)
        shortfall = np.where(open_, np.nan_to_num(scores - best, nan=-np.inf).max(axis=0), -np.inf)
        cells = np.flatnonzero(open_[: places.cells])
        ranked = cells[np.lexsort((cells, -shortfall[cells].round(DIGITS)))]
        for apart, share in ((WIDE, 0.5), (CLOSE, 1.0)):
            goal = max(len(chosen), int(share * most))
            chosen = _spaced(places.x, places.y, chosen, ranked, apart, goal)
    return tuple(Candidate(place, place_name(study, place)) for place in chosen)


def placing_scores(study: Study, places: Array) -> Array:
    """Score of every option at some places with its partners there (option, place), NaN barred.

    The pollination factor looks at trees that stand already, and would mark a tree down for want of
    the very partner that comes with it. A placed tree always has the partners it must have, so the
    factor is taken at what that brings, or at what stands already where that is more; everything
    else is as the study judges it.
    """
    names = [factor.name for factor in study.factors]
    worth = study.desirabilities[:, :, places].astype(float)
    pollen = np.maximum(
        study.measure("pollination")[:, places], pollen_at_least(study.traits)[:, None]
    )
    worth[names.index("pollination")] = desirability(pollen, study.settings["pollination"].curve)
    scores = power_mean.power_mean(worth, study.weights, study.trade_off)
    return np.where(study.ruling.ruled_out[:, places], np.nan, scores)


def place_name(study: Study, place: int) -> str:
    """A place in words that a person can find with a tape: its peg, or where it lies from one.

    The name goes into placement.csv and is looked up by, so that it is English in every language.
    Bearings are clockwise from true north; without pegs it is told from the origin.
    """
    places = study.ground.places
    if place >= places.cells:
        return places.spots[place - places.cells]
    x, y = float(places.x[place]), float(places.y[place])
    if not places.spots:
        sides = ("east" if x >= 0 else "west"), ("north" if y >= 0 else "south")
        return f"{abs(x):.1f} m {sides[0]}, {abs(y):.1f} m {sides[1]} of the origin"
    east, north = x - places.x[places.cells :], y - places.y[places.cells :]
    away = np.hypot(east, north)
    peg = int(away.argmin())
    if away[peg] < 0.05:
        return f"beside {places.spots[peg]}"
    bearing = float(np.degrees(np.arctan2(east[peg], north[peg]))) % 360
    point = POINTS[round(bearing / 45) % 8]
    return f"{away[peg]:.1f} m {point} ({bearing:.0f}°) of {places.spots[peg]}"


def same_holes(study: Study, places: Iterable[int]) -> tuple[int, ...]:
    """Blocked places and all others so near that they would be the same hole again."""
    x, y = study.ground.places.x, study.ground.places.y
    near = [np.flatnonzero(np.hypot(x - x[one], y - y[one]) < SAME_HOLE) for one in places]
    return tuple(np.unique(np.concatenate([np.empty(0, int), *near])).tolist())


def _spaced(
    x: Array, y: Array, chosen: list[int], ranked: Array, apart: float, most: int
) -> list[int]:
    """The chosen places and the best of the ranked at least so far from them, up to a number."""
    chosen = list(chosen)
    left = ranked
    for place in chosen:
        left = left[np.hypot(x[left] - x[place], y[left] - y[place]) >= apart]
    while len(left) and len(chosen) < most:
        place = int(left[0])
        chosen.append(place)
        left = left[np.hypot(x[left] - x[place], y[left] - y[place]) >= apart]
    return chosen
