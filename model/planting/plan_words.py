"""A placement in sentences: every tree, how sure the whole is, what is left and what else."""

from collections.abc import Sequence

import numpy as np

from model.language import _, each, marked, ngettext
from model.planting.order import Order
from model.planting.partnership import own_pollen, pollen_needs
from model.planting.placement import Placement, Planted
from model.study import Study

CAUTION = marked(
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
    unmet, instead = _("Not met: {what}"), _("Or, {number}: {changes}")
    said += [unmet.format(what=sentence) for sentence in placement.unmet]
    said += placement.notes
    said += [
        instead.format(number=number, changes=" ".join(other.notes))
        for number, other in enumerate(others, start=1)
    ]
    return [*said, _(CAUTION)]


def tree_words(study: Study, order: Order, tree: Planted) -> str:
    """One tree: where it stands, which wish it meets, its score, who serves it."""
    label = study.options[tree.option].label
    said = _("{place}: {tree}, {score:.0f} of 100; {partners}.")
    if tree.wish and tree.wish != label:
        said = _("{place}: {tree} for “{wish}”, {score:.0f} of 100; {partners}.")
    return said.format(
        place=tree.name,
        tree=label,
        wish=_(tree.wish),
        score=100 * tree.score,
        partners=partners(study, order, tree),
    )


def partners(study: Study, order: Order, tree: Planted) -> str:
    """Who serves a tree in flower, or why it needs nobody."""
    own = float(own_pollen(study.traits)[tree.option])
    if tree.partners:
        said = _("served by {partners}")
        if own == 1.0:
            said = _("self-fertile, served by {partners}")
        if own == 0.5:
            said = _("partly self-fertile, served by {partners}")
        return said.format(partners=each(tree.partners))
    if own >= 1:
        return _("self-fertile, needs no partner")
    if pollen_needs(study.traits)[tree.option] > 0:
        return _("no partner within {range:g} m").format(range=order.bee_range)
    return _("partly self-fertile, bears more with a partner, none within {range:g} m").format(
        range=order.bee_range
    )


def total_words(order: Order, placement: Placement) -> str:
    """The total, out of how many trees, and how much better another placement could be."""
    number = len(placement.trees)
    trees = ngettext("{number} tree", "{number} trees", number)
    if number < order.count:
        trees = ngettext(
            "{number} tree of the {ordered} ordered",
            "{number} trees of the {ordered} ordered",
            number,
        )
    sure = _("not proven: another choice may score up to {gap:.1f} % more")
    if placement.proven:
        sure = _("proven: no other choice among the {places} places offered scores more")
    mean = placement.total / number if number and np.isfinite(placement.total) else 0.0
    return _("{trees}, {mean:.0f} of 100 on average; {sure}.").format(
        trees=trees.format(number=number, ordered=order.count),
        mean=100 * mean,
        sure=sure.format(gap=100 * placement.gap, places=len(placement.offered)),
    )
