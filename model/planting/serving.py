"""Which partners each tree of a placement has in reach, with their names and distances."""

from collections.abc import Sequence
from dataclasses import replace

from model.language import _
from model.planting.order import Order
from model.planting.partnership import (
    Tree,
    clone_of,
    lacking,
    partner_words,
    partners_in_reach,
    pollen_needs,
    pollen_worths,
)
from model.planting.placement import Planted
from model.study import Study


def served(
    study: Study, order: Order, trees: Sequence[Planted], standing: Sequence[Tree]
) -> list[Planted]:
    """Trees with the partners that each of them has in reach."""
    givers = [*as_partners(study, trees), *standing]
    found = []
    for tree in trees:
        in_reach = partners_in_reach(tree.option, tree.x, tree.y, givers, order.bee_range)
        found.append(replace(tree, partners=partner_words(tree.option, in_reach)))
    return found


def lacks_partners(
    study: Study,
    order: Order,
    trees: Sequence[Planted],
    standing: Sequence[Tree],
    tree: Planted,
) -> float:
    """How many partners a tree is short of among the others and those that stand, 0 for none."""
    givers = [*as_partners(study, [one for one in trees if one != tree]), *standing]
    in_reach = partners_in_reach(tree.option, tree.x, tree.y, givers, order.bee_range)
    return lacking(float(pollen_needs(study.traits)[tree.option]), tree.option, in_reach)


def as_partners(study: Study, trees: Sequence[Planted]) -> list[Tree]:
    """Planted trees as those who serve others."""
    worths = pollen_worths(study)
    named = _("{tree} at {place}")
    return [
        Tree(
            named.format(tree=study.options[tree.option].cultivar, place=tree.name),
            tree.x,
            tree.y,
            clone_of(study.options[tree.option].species, study.options[tree.option].cultivar),
            worths[:, tree.option],
        )
        for tree in trees
    ]
