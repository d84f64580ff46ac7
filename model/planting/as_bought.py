"""An order once its trees are bought: each tree of a plan as a wish for that very tree."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from scipy.optimize import linear_sum_assignment

from model.language import marked
from model.planting.order import Order, Wish
from model.planting.placement import Planted

STANDS = marked("stands already")


def as_bought(order: Order, trees: Sequence[Planted]) -> Order:
    """An order of the trees of a plan, and of what the order asks for beyond them.

    Each tree counts towards one line of the order that it meets, its own where it says which; a
    tree that meets none stays in the plan all the same.
    """
    slots = [wish for wish in order.wishes for _ in range(wish.count)]
    cost = np.array(
        [
            [_misfit(tree, wish) for wish in slots] + [1.5] * len(trees)  # no line at all
            for tree in trees
        ]
    ).reshape(len(trees), len(slots) + len(trees))
    met = linear_sum_assignment(cost)[1].tolist()
    wishes = [
        _own(tree, slots[slot] if slot < len(slots) else None)
        for tree, slot in zip(trees, met, strict=True)
    ]
    left = [wish for number, wish in enumerate(slots) if number not in met]
    wishes += [replace(wish, count=1) for wish in left]
    return replace(order, wishes=_together(wishes))


def _misfit(tree: Planted, wish: Wish) -> float:
    """0 for the line that a tree says it meets, 1 for another that it meets, 2 for none."""
    if tree.option not in wish.options:
        return 2.0
    return 0.0 if tree.wish == wish.label else 1.0


def _own(tree: Planted, wish: Wish | None) -> Wish:
    label = wish.label if wish else tree.wish or STANDS
    return Wish(label, 1, (tree.option,))


def _together(wishes: Sequence[Wish]) -> tuple[Wish, ...]:
    """Equal wishes as one of their number."""
    counts: dict[tuple[str, tuple[int, ...]], int] = {}
    for wish in wishes:
        key = wish.label, wish.options
        counts[key] = counts.get(key, 0) + wish.count
    return tuple(Wish(label, count, options) for (label, options), count in counts.items())
