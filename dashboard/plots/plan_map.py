"""The plan from above as plain values: crowns at full size, pegs, links between partners."""

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from dashboard import theme
from dashboard.plots.survey_plan import drawn_marks, extent
from model.planting.order import Order
from model.planting.partnership import Tree as Partner
from model.planting.partnership import partners_in_reach, pollen_worths, standing_partners
from model.planting.placement import Placement, Planted
from model.study import Study
from model.survey.editing import sketch_of
from model.trees import full_size


def ground(study: Study) -> tuple[list[dict[str, Any]], list[float]]:
    """The survey's features as the plan draws them, and west, south, east and north of all."""
    marks = sketch_of(study.site).marks
    inside = [mark for mark in marks if mark.kind == "boundary"] or marks
    return drawn_marks(marks), extent(inside)


def trees(
    study: Study, placed: Sequence[Planted], stays: frozenset[int], planted: Mapping[int, str]
) -> list[dict[str, Any]]:
    """Each tree with its number, letter, name and full-grown crown: low, typical, high [m]."""
    at = np.array([tree.place for tree in placed], dtype=int)
    spread = full_size(study.traits, study.ground.soils.fertility[at]).spread
    spread = np.broadcast_to(spread, (3, len(study.options), len(at))) / 2
    return [
        {
            "id": number + 1,
            "x": tree.x,
            "y": tree.y,
            "radii": [round(float(r), 2) for r in spread[:, tree.option, number]],
            "letter": theme.letter(tree.option),
            "name": study.options[tree.option].cultivar,
            "set": tree.place in stays,
            "planted": tree.place in planted,
        }
        for number, tree in enumerate(placed)
    ]


def ghosts(before: Placement | None, placed: Sequence[Planted]) -> list[list[float]]:
    """Lines from where trees of the old plan stood to where they stand now, or alone."""
    if before is None:
        return []
    stands = {(tree.place, tree.option) for tree in placed}
    was = {(tree.place, tree.option) for tree in before.trees}
    gone = [tree for tree in before.trees if (tree.place, tree.option) not in stands]
    come = [tree for tree in placed if (tree.place, tree.option) not in was]
    found = []
    for old in gone:
        same = [new for new in come if new.option == old.option]
        new = min(same, key=lambda one: np.hypot(one.x - old.x, one.y - old.y), default=None)
        if new is not None:
            come.remove(new)
        end = [old.x, old.y] if new is None else [new.x, new.y]
        found.append([old.x, old.y, *end])
    return found


def links(study: Study, order: Order, placed: Sequence[Planted]) -> list[list[float]]:
    """Lines between flowering partners: from who gives to who takes, and whether both serve."""
    worths = pollen_worths(study)
    givers = [
        Partner(str(n), one.x, one.y, str(n), worths[:, one.option]) for n, one in enumerate(placed)
    ]
    standing = standing_partners(study)
    serves = set()
    for number, one in enumerate(placed):
        rest = [*givers[:number], *givers[number + 1 :], *standing]
        for giver, _far in partners_in_reach(one.option, one.x, one.y, rest, order.bee_range):
            serves.add(((giver.x, giver.y), (one.x, one.y)))
    return [
        [*giver, *taker, float((taker, giver) in serves)]
        for giver, taker in sorted(serves)
        if (taker, giver) not in serves or giver < taker
    ]
