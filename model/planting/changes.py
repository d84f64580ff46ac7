"""What is different between two placements, in sentences."""

from collections.abc import Sequence

import numpy as np
from scipy.optimize import linear_sum_assignment

from model.language import _
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
        return [_("Nothing moves.")]
    said, paired_gone, paired_come = [], set(), set()
    for old, new in _pairs(gone, come):
        paired_gone.add(old)
        paired_come.add(new)
        said.append(_moved(study, gone[old], come[new]))
    drops, added = _("{tree} drops out of {place}."), _("{tree} is added at {place}.")
    said += [_alone(study, t, drops) for n, t in enumerate(gone) if n not in paired_gone]
    said += [_alone(study, t, added) for n, t in enumerate(come) if n not in paired_come]
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
    scores = _("its score goes from {before:.0f} to {after:.0f} of 100")
    if np.isnan(old.score):
        scores = _("there it was ruled out, here it scores {after:.0f} of 100")
    names = {
        "before": first,
        "tree": second,
        "away": float(np.hypot(old.x - new.x, old.y - new.y)),
        "there": old.name,
        "here": new.name,
        "scores": scores.format(before=100 * old.score, after=100 * new.score),
    }
    said = _("{tree} at {here} in place of {before} at {there}: {scores}.")
    if old.place == new.place:
        said = _("{tree} stands at {here} in place of {before}: {scores}.")
    if old.option == new.option:
        said = _("{tree} moves {away:.0f} m, from {there} to {here}: {scores}.")
    return said.format(**names)


def _alone(study: Study, tree: Planted, said: str) -> str:
    return said.format(tree=study.options[tree.option].label, place=tree.name)


def _cost(before: Placement, after: Placement) -> str:
    """What a change costs in all; a tie where it is less than the survey's error a tree."""
    if len(before.trees) != len(after.trees):
        return _(
            "The {trees} trees come to {total:.0f} points together; the {trees_before} before came "
            "to {total_before:.0f}."
        ).format(
            trees=len(after.trees),
            total=100 * after.total,
            trees_before=len(before.trees),
            total_before=100 * before.total,
        )
    change = after.total - before.total
    share = 100 * abs(change) / before.total if before.total else 0.0
    by = f"{share:.1f} %" if share >= LEAST else _("less than {share:g} %").format(share=LEAST)
    tie = abs(change) <= TIE * len(after.trees)
    ways = {
        (True, False): _("In all {by} more: {after:.1f} against {before:.1f} points."),
        (False, False): _("In all {by} less: {after:.1f} against {before:.1f} points."),
        (True, True): _(
            "In all {by} more: {after:.1f} against {before:.1f} points; within the survey's error "
            "that is a tie, and taste may choose."
        ),
        (False, True): _(
            "In all {by} less: {after:.1f} against {before:.1f} points; within the survey's error "
            "that is a tie, and taste may choose."
        ),
    }
    return ways[change > 0, tie].format(by=by, after=100 * after.total, before=100 * before.total)
