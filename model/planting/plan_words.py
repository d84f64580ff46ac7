"""A placement in sentences: every tree, how sure the whole is, what is left and what else."""

from collections.abc import Sequence

import numpy as np

from model.planting.order import Order
from model.planting.partnership import own_pollen, pollen_needs
from model.planting.placement import Placement, Planted
from model.study import Study

CAUTION = (
    "Before digging, ask for the plans of buried services and look for overhead lines; keep to the "
    "local rules on distance from boundaries."
)


def plan_words(
    study: Study, order: Order, placement: Placement, others: Sequence[Placement] = ()
) -> list[str]:
    """Each tree, the total and its gap, what is unmet, what to know, alternatives, the caution."""
    said = [tree_words(study, order, tree) for tree in placement.trees]
    if placement.trees:
        said.append(total_words(order, placement))
    said += [f"Not met: {sentence}" for sentence in placement.unmet]
    said += placement.notes
    said += [f"Or, {n}: {' '.join(other.notes)}" for n, other in enumerate(others, start=1)]
    return [*said, CAUTION]


def tree_words(study: Study, order: Order, tree: Planted) -> str:
    """One tree: where it stands, which wish it meets, its score, who serves it."""
    label = study.options[tree.option].label
    wish = f" for “{tree.wish}”" if tree.wish and tree.wish != label else ""
    worth = f"{100 * tree.score:.0f} of 100"
    return f"{tree.name}: {label}{wish}, {worth}; {partners(study, order, tree)}."


def partners(study: Study, order: Order, tree: Planted) -> str:
    """Who serves a tree in flower, or why it needs nobody."""
    own = float(own_pollen(study.traits)[tree.option])
    itself = {1.0: "self-fertile, ", 0.5: "partly self-fertile, "}.get(own, "")
    if tree.partners:
        return f"{itself}served by {' and '.join(tree.partners)}"
    if own >= 1:
        return "self-fertile, needs no partner"
    if pollen_needs(study.traits)[tree.option] > 0:
        return f"no partner within {order.bee_range:g} m"
    return f"partly self-fertile, bears more with a partner, none within {order.bee_range:g} m"


def total_words(order: Order, placement: Placement) -> str:
    """The total, out of how many trees, and how much better another placement could be."""
    number = len(placement.trees)
    wanted = "" if number >= order.count else f" of the {order.count} ordered"
    sure = (
        f"proven: no other choice among the {len(placement.offered)} places offered scores more"
        if placement.proven
        else f"not proven: another choice may score up to {100 * placement.gap:.1f} % more"
    )
    mean = placement.total / number if number and np.isfinite(placement.total) else 0.0
    return (
        f"{number} tree{'s' if number != 1 else ''}{wanted}, {100 * mean:.0f} of 100 on average; "
        f"{sure}."
    )
