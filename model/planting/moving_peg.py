"""What a plan gains or loses when one of its trees is dragged elsewhere, and why it may not go."""

from dataclasses import dataclass, replace

import numpy as np

from model.planting.candidates import place_name, placing_scores
from model.planting.order import Order
from model.planting.order_programme import crown_radius
from model.planting.partnership import standing_partners
from model.planting.placement import Placement, Planted
from model.planting.serving import lacks_partners
from model.study import Study

TOUCH = 1e-6  # [m] two crowns that just touch are apart


@dataclass(frozen=True)
class Moved:
    """A tree's score at another place less its score here, and why it may not stand there.

    `change` is NaN where the place is ruled out.
    """

    change: float
    reasons: tuple[str, ...]


def worth_if_moved(
    study: Study, order: Order, placement: Placement, tree: Planted, place: int
) -> Moved:
    """What moving one tree of a plan to a place would change, all others staying.

    Reasons: what rules the place out, crowns without room to walk between, and trees, itself or
    others, that would lose the partners that they have.
    """
    here, there = placing_scores(study, np.array([tree.place, place]))[tree.option]
    x, y = float(study.ground.places.x[place]), float(study.ground.places.y[place])
    gone = replace(tree, place=place, name=place_name(study, place), x=x, y=y)
    others = [one for one in placement.trees if one != tree]
    ruled = study.ruling.reason(tree.option, place)
    if not ruled and np.isnan(there):
        ruled = "it lies outside the boundary, so nothing is judged there"
    reasons = (*([ruled] if ruled else []), *_crowded(study, order, gone, others))
    reasons += tuple(_unserved(study, order, placement, tree, gone))
    return Moved(float(there - here), reasons)


def _crowded(study: Study, order: Order, gone: Planted, others: list[Planted]) -> list[str]:
    said = []
    trees = [gone, *others]
    radius = crown_radius(study, np.array([one.place for one in trees]))
    for number, one in enumerate(others, start=1):
        wanted = radius[gone.option, 0] + radius[one.option, number] + order.walk
        apart = float(np.hypot(one.x - gone.x, one.y - gone.y))
        if apart + TOUCH < wanted:
            said.append(
                f"{study.options[one.option].label} at {one.name} would stand {apart:.1f} m away: "
                f"with room to walk between the grown crowns it takes {wanted:.1f} m"
            )
    return said


def _unserved(
    study: Study, order: Order, placement: Placement, tree: Planted, gone: Planted
) -> list[str]:
    """Trees that would be short of more partners than they are now."""
    standing = standing_partners(study)
    after = [gone if one == tree else one for one in placement.trees]
    said = []
    for old, new in zip(placement.trees, after, strict=True):
        short = lacks_partners(study, order, after, standing, new)
        if short > lacks_partners(study, order, placement.trees, standing, old):
            name = study.options[new.option].label
            said.append(
                f"{name} at {new.name} would have too few partners within {order.bee_range:g} m"
            )
    return said
