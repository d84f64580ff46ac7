"""What is different between two placements, in sentences."""

from collections.abc import Sequence

import numpy as np
from scipy.optimize import linear_sum_assignment

from model.planting.placement import Placement, Planted
from model.results import TIE
from model.study import Study

LEAST = 0.1  # [%] the smallest change that is told by its figure
FAR = 1e6  # [m] farther than any tree moves, so that trees of one kind are paired first


def what_changed(study: Study, before: Placement, after: Placement) -> list[str]:
    """One sentence for each tree that moves, comes or goes, then what all of it costs."""
    stays = {(tree.place, tree.option) for tree in before.trees}
    stays &= {(tree.place, tree.option) for tree in after.trees}
    gone = [tree for tree in before.trees if (tree.place, tree.option) not in stays]
    come = [tree for tree in after.trees if (tree.place, tree.option) not in stays]
    if not gone and not come:
        return ["Nothing moves."]
    said, paired_gone, paired_come = [], set(), set()
    for old, new in _pairs(gone, come):
        paired_gone.add(old)
        paired_come.add(new)
        said.append(_moved(study, gone[old], come[new]))
    said += [_alone(study, t, "drops out of") for n, t in enumerate(gone) if n not in paired_gone]
    said += [_alone(study, t, "is added at") for n, t in enumerate(come) if n not in paired_come]
    return [*said, _cost(before, after)]


def _pairs(gone: Sequence[Planted], come: Sequence[Planted]) -> list[tuple[int, int]]:
    """Which tree that goes is which that comes: of one kind and near, else of one wish."""
    if not gone or not come:
        return []
    away = np.array([[np.hypot(o.x - n.x, o.y - n.y) for n in come] for o in gone])
    other = np.array([[o.option != n.option for n in come] for o in gone])
    strange = np.array([[o.option != n.option and o.wish != n.wish for n in come] for o in gone])
    old, new = linear_sum_assignment(away + FAR * other + FAR**2 * strange)
    return [(int(o), int(n)) for o, n in zip(old, new, strict=True) if not strange[o, n]]


def _moved(study: Study, old: Planted, new: Planted) -> str:
    first, second = study.options[old.option].label, study.options[new.option].label
    scores = f"its score goes from {100 * old.score:.0f} to {100 * new.score:.0f} of 100"
    if np.isnan(old.score):
        scores = f"there it was ruled out, here it scores {100 * new.score:.0f} of 100"
    if old.option == new.option:
        away = float(np.hypot(old.x - new.x, old.y - new.y))
        return f"{first} moves {away:.0f} m, from {old.name} to {new.name}: {scores}."
    if old.place == new.place:
        return f"{second} stands at {new.name} in place of {first}: {scores}."
    return f"{second} at {new.name} in place of {first} at {old.name}: {scores}."


def _alone(study: Study, tree: Planted, what: str) -> str:
    return f"{study.options[tree.option].label} {what} {tree.name}."


def _cost(before: Placement, after: Placement) -> str:
    """What a change costs in all; a tie where it is less than the survey's error a tree."""
    if len(before.trees) != len(after.trees):
        return (
            f"The {len(after.trees)} trees come to {100 * after.total:.0f} points together; "
            f"the {len(before.trees)} before came to {100 * before.total:.0f}."
        )
    change = after.total - before.total
    ways = "more" if change > 0 else "less"
    share = 100 * abs(change) / before.total if before.total else 0.0
    said = f"{share:.1f} %" if share >= LEAST else f"less than {LEAST:g} %"
    tie = abs(change) <= TIE * len(after.trees)
    same = "; within the survey's error that is a tie, and taste may choose" if tie else ""
    points = f"{100 * after.total:.1f} against {100 * before.total:.1f} points"
    return f"In all {said} {ways}: {points}{same}."
