"""What a plan gains or loses when one of its trees is dragged elsewhere, and why it may not go."""

from dataclasses import dataclass, replace

import numpy as np

from model.language import _
from model.planting.candidates import place_name, placing_scores
from model.planting.order import Order
from model.planting.order_programme import crown_radius
from model.planting.partnership import Tree as Partner
from model.planting.partnership import (
    clone_of,
    lacking,
    partners_in_reach,
    pollen_needs,
    pollen_worths,
    standing_partners,
)
from model.planting.placement import Placement, Planted
from model.study import Study

TOUCH = 1e-6  # [m] two crowns that just touch are apart


@dataclass(frozen=True)
class Moved:
    """A tree's score at another place less its score here, and why it may not stand there.

    `change` is NaN where the place is ruled out.
    """

    change: float
    reasons: tuple[str, ...]


class PegMoves:
    """A plan whose trees can be tried elsewhere, fast enough to follow a finger.

    `scores` (option, place) are those of placing, NaN where ruled out. Everything that does not
    hang on where the dragged tree is goes once: scores, crowns, who serves whom, who stands there.
    """

    def __init__(self, study: Study, order: Order, placement: Placement) -> None:
        self.study, self.order, self.trees = study, order, placement.trees
        places = np.arange(study.ground.places.x.size)
        self.scores = placing_scores(study, places)
        self.radius = crown_radius(study, places)
        self._needs, self._worths = pollen_needs(study.traits), pollen_worths(study)
        self._standing = standing_partners(study)
        self._short = self._shortages(self.trees)

    def moved(self, tree: Planted, place: int) -> Moved:
        """What moving one tree to a place would change, all others staying.

        Reasons: what rules the place out, crowns without room to walk between, and trees, itself
        or others, that would lose the partners that they have.
        """
        study, places = self.study, self.study.ground.places
        here, there = self.scores[tree.option, tree.place], self.scores[tree.option, place]
        x, y = float(places.x[place]), float(places.y[place])
        gone = replace(tree, place=place, name=place_name(study, place), x=x, y=y)
        ruled = study.ruling.reason(tree.option, place)
        if not ruled and np.isnan(there):
            ruled = _("it lies outside the boundary, so nothing is judged there")
        after = [gone if one == tree else one for one in self.trees]
        others = [one for one in self.trees if one != tree]
        reasons = (*([ruled] if ruled else []), *self._crowded(gone, others), *self._lonely(after))
        return Moved(float(there - here), reasons)

    def _crowded(self, gone: Planted, others: list[Planted]) -> list[str]:
        said = []
        own = self.radius[gone.option, gone.place]
        for one in others:
            wanted = own + self.radius[one.option, one.place] + self.order.walk
            apart = float(np.hypot(one.x - gone.x, one.y - gone.y))
            if apart + TOUCH < wanted:
                label = self.study.options[one.option].label
                near = _(
                    "{tree} at {place} would stand {apart:.1f} m away: with room to walk between "
                    "the grown crowns it takes {wanted:.1f} m"
                )
                said.append(near.format(tree=label, place=one.name, apart=apart, wanted=wanted))
        return said

    def _lonely(self, after: list[Planted]) -> list[str]:
        """Trees that would be short of more partners than they are now."""
        said = _("{tree} at {place} would have too few partners within {range:g} m")
        return [
            said.format(
                tree=self.study.options[new.option].label,
                place=new.name,
                range=self.order.bee_range,
            )
            for new, short, before in zip(after, self._shortages(after), self._short, strict=True)
            if short > before
        ]

    def _shortages(self, trees: tuple[Planted, ...] | list[Planted]) -> list[float]:
        """How many partners each tree is short of among the others and those that stand."""
        givers = [self._partner(tree) for tree in trees]
        found = []
        for number, tree in enumerate(trees):
            rest = [*givers[:number], *givers[number + 1 :], *self._standing]
            reach = partners_in_reach(tree.option, tree.x, tree.y, rest, self.order.bee_range)
            found.append(lacking(float(self._needs[tree.option]), tree.option, reach))
        return found

    def _partner(self, tree: Planted) -> Partner:
        kind = self.study.options[tree.option]
        clone = clone_of(kind.species, kind.cultivar)
        return Partner(tree.name, tree.x, tree.y, clone, self._worths[:, tree.option])


def worth_if_moved(
    study: Study, order: Order, placement: Placement, tree: Planted, place: int
) -> Moved:
    """What moving one tree of a plan to a place would change; for many, keep the PegMoves."""
    return PegMoves(study, order, placement).moved(tree, place)
