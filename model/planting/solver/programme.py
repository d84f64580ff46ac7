"""One order of trees to be placed, as arrays: what is asked of a placement, and what one is.

Axes: (position,) pegs that may be planted, (option,) trees that may be bought, (wish,) lines of the
order, (window,) seasons of picking.
"""

from dataclasses import dataclass

import numpy as np

Array = np.ndarray
Tree = tuple[int, int]


@dataclass(frozen=True, eq=False)
class Programme:
    """All that a placement must keep to, and the scores whose sum it makes as great as can be.

    scores (position, option): 0 to 1 as displayed, NaN where the tree may not stand.
    x, y (position,) [m]. radius (position, option) [m]: full-grown crown on that soil.
    wishes (wish, option) bool: options that meet it; counts (wish,) trees wanted. Every tree
    planted meets exactly one wish, whichever of its wishes serves the order best.
    gap [m]: room to walk between two crowns.
    prices (option,) and budget: together, or no limit.
    cultivar (option,) int: options of one number are one clone.
    needs (option,): how much pollen, in partners' worths, it needs; 0 for none.
    partners (option, option): worth 0 to 1 of the column's pollen for the row's tree. A cultivar
    counts once however many trees of it stand in bee_range [m], and never for its own clone;
    served (position, option): the worth at hand there from trees that stand already.
    seasons (window, option) bool, season_counts (window, 2): least and most trees of a window.
    at_most (option,): limit on the trees of each kind.
    fixed: trees (position, option) that are set and count towards the order. blocked: positions
    that are closed. moved_cost (position, option): what a tree there costs in re-planning.

    ValueError where shapes disagree or pollen differs between options of one cultivar.
    """

    scores: Array
    x: Array
    y: Array
    radius: Array
    wishes: Array
    counts: Array
    gap: float = 0.0
    prices: Array | None = None
    budget: float | None = None
    cultivar: Array | None = None
    needs: Array | None = None
    partners: Array | None = None
    served: Array | None = None
    bee_range: float = 0.0
    seasons: Array | None = None
    season_counts: Array | None = None
    at_most: Array | None = None
    fixed: tuple[Tree, ...] = ()
    blocked: tuple[int, ...] = ()
    moved_cost: Array | None = None

    def __post_init__(self) -> None:
        positions, options = np.shape(self.scores)
        wishes, windows = len(self.counts), len(() if self.seasons is None else self.seasons)
        shapes = {
            "x": (positions,),
            "y": (positions,),
            "radius": (positions, options),
            "wishes": (wishes, options),
            "prices": (options,),
            "cultivar": (options,),
            "needs": (options,),
            "partners": (options, options),
            "served": (positions, options),
            "seasons": (windows, options),
            "season_counts": (windows, 2),
            "at_most": (options,),
            "moved_cost": (positions, options),
        }
        for name, shape in shapes.items():
            value = getattr(self, name)
            if value is not None and np.shape(value) != shape:
                raise ValueError(f"{name} must be of shape {shape}, got {np.shape(value)}")
        self._pollen_checked()

    def _pollen_checked(self) -> None:
        if (self.needs is None) != (self.partners is None):
            raise ValueError("needs and partners must be given together")
        if self.partners is None:
            return
        for number in np.unique(self.clones):
            worths = self.partners[:, self.clones == number]
            if np.ptp(worths, axis=1).max() > 0:
                raise ValueError(
                    f"partners must be worth the same for all options of cultivar {number}"
                )

    @property
    def clones(self) -> Array:
        """Cultivar's number by option; every option its own when none is given."""
        if self.cultivar is None:
            return np.arange(np.shape(self.scores)[1])
        return np.asarray(self.cultivar)

    @property
    def allowed(self) -> Array:
        """Where each option may stand (position, option): scored, open, wished for."""
        allowed = np.isfinite(self.scores) & np.any(self.wishes, axis=0)
        allowed[list(self.blocked)] = False
        return allowed


@dataclass(frozen=True)
class Solution:
    """A placement: trees (position, option, wish), their total score, and the most possible.

    status: "proven" (nothing better exists), "time" (the best found when time ran out, with no
    trees and total NaN when none was found), "impossible" (no placement keeps to the programme).
    """

    chosen: tuple[tuple[int, int, int], ...]
    total: float
    bound: float
    status: str
    seconds: float

    @property
    def gap(self) -> float:
        """Share of the bound by which a better placement may still exceed this one."""
        return (self.bound - self.total) / abs(self.bound) if self.bound else 0.0


@dataclass(frozen=True)
class Relaxation:
    """One thing to give up so that an order can be met.

    kind: "wish" (which: wish, by: trees short), "partners" (which: option planted without them),
    "budget" (by: money over it), "season" (which: window, by: trees short or over), "fixed"
    (which: position whose set tree must be lifted).
    """

    kind: str
    which: int
    by: float
