"""Placing an order, others nearly as good, and the one that moves fewest trees.

An order's trees stand where their scores together are greatest, each with room at its full size and
with its partners in reach; solved exactly (see solver.py) among the candidates.
"""

from collections.abc import Sequence
from dataclasses import replace
from math import ceil
from time import perf_counter

import numpy as np

from model.language import _
from model.planting.as_bought import as_bought
from model.planting.asking_less import asking_less, with_least_overrun
from model.planting.candidates import Candidate, candidate_places, place_name, same_holes
from model.planting.changes import what_changed
from model.planting.layout import Layout, Set, layout, placed
from model.planting.order import Order
from model.planting.partnership import pollen_needs
from model.planting.placement import Placement
from model.planting.serving import lacks_partners
from model.planting.solver.impossible import WEIGHTS, impossible_because
from model.planting.solver.programme import Programme, Relaxation, Solution
from model.planting.solver.solver import least_changed, next_solutions, solution
from model.planting.unmet import unmet_sentences
from model.study import Study

WITHIN = 0.02  # of the best total: as good, all but the survey's error
GIVEN_UP = {**WEIGHTS, "fixed": 100.0}  # a set tree is lifted only where nothing else helps
STEPS = 2  # trees at least by which one alternative differs from another, and of all a
SHARE = 0.25  # share, so that it is worth a look: one tree a few paces on is no other plan


def place_order(
    study: Study,
    order: Order,
    candidates: Sequence[Candidate] | None = None,
    blocked: Sequence[int] = (),
    kept: Sequence[Set] = (),
    seconds: float = 60,
) -> Placement:
    """The best placement of an order; what cannot be met is given up and said in `unmet`.

    candidates: places that are offered, the pegs and the best of the land unless said. blocked:
    places that are closed, with all that would be the same hole. kept: trees (place, option) that
    are set and count towards the order. ValueError where a tree is kept on a blocked place.
    """
    offered = _numbers(candidate_places(study, order) if candidates is None else candidates)
    made = _laid_out(study, order, offered, blocked, kept)
    if not made.programme.allowed.any():
        return _nothing(made)
    return _placed(made, solution(made.programme, seconds), seconds)


def replaced(
    study: Study,
    order: Order,
    placement: Placement,
    blocked: Sequence[int],
    kept: Sequence[int] = (),
    candidates: Sequence[Candidate] | None = None,
    seconds: float = 60,
) -> Placement:
    """The placement that moves the fewest trees once places are blocked, and the best of those.

    The trees are bought by then, so that each stays the tree it is. kept: places whose trees are
    set and may not move. The notes say which tree moves from where to where, and what it costs.
    """
    bought = as_bought(order, placement.trees)
    stays = [(tree.place, tree.option) for tree in placement.trees if tree.place in set(kept)]
    if candidates is None:
        offered = placement.offered or _numbers(candidate_places(study, bought))
    else:
        offered = _numbers(candidates)
    made = _laid_out(study, bought, (*offered, *placement.places), blocked, stays)
    before = (*made.positions(placement.trees), *made.standing_set)
    made = replace(made, programme=_as_it_was(made, placement, before))
    if not made.programme.allowed.any():
        return _nothing(made)
    found = _placed(made, least_changed(made.programme, before, seconds), seconds, before)
    return replace(found, notes=(*what_changed(study, placement, found), *found.notes))


def alternatives(
    study: Study,
    order: Order,
    placement: Placement,
    count: int = 3,
    within: float = WITHIN,
    seconds: float = 60,
) -> tuple[Placement, ...]:
    """Other placements within a share of the best, best first; the notes say how they differ.

    They use the places that the best was offered, and keep the trees that it kept. None for a
    placement that leaves something of its order unmet or that is not proven: what is within a
    share of the best is only known where the best is.
    """
    if placement.unmet or not placement.proven:
        return ()
    made = _laid_out(study, order, placement.offered, (), placement.kept)
    labels = [wish.label for wish in order.wishes]
    own = [
        (*tree, labels.index(planted.wish))
        for tree, planted in zip(made.positions(placement.trees), placement.trees, strict=True)
    ]
    standing = [(*tree, len(labels) + number) for number, tree in enumerate(made.standing_set)]
    best = Solution((*own, *standing), placement.total, placement.bound, "proven", 0.0)
    number = len(placement.trees)
    steps = min(max(STEPS, ceil(SHARE * number)), number)
    others = next_solutions(made.programme, best, count, within, steps, seconds)
    told = [placed(made, one) for one in others]
    return tuple(replace(one, notes=tuple(what_changed(study, placement, one))) for one in told)


def _as_it_was(made: Layout, placement: Placement, before: Sequence[Set]) -> Programme:
    """The programme in which trees that stay cost nothing, and need no more than they had.

    A tree that was planned without a partner may stay without: to mend that is another plan.
    """
    cost = np.ones(np.shape(made.programme.scores))
    served = np.zeros(cost.shape)
    for stays in before:
        cost[stays] = 0.0
    for tree in placement.trees:
        if lacks_partners(made.study, made.order, placement.trees, made.standing, tree):
            for position, option in made.positions([tree]):
                served[position, option] = pollen_needs(made.study.traits)[option]
    return replace(made.programme, moved_cost=cost, served=served)


def _laid_out(
    study: Study,
    order: Order,
    offered: Sequence[int],
    blocked: Sequence[int],
    kept: Sequence[Set],
) -> Layout:
    closed = set(same_holes(study, blocked))
    for place, _option in kept:
        if place in closed:
            name = place_name(study, place)
            raise ValueError(f"{name}: a tree cannot be kept on a blocked place")
    places = dict.fromkeys([*offered, *(place for place, _option in kept)])
    left = [Candidate(one, place_name(study, one)) for one in places if one not in closed]
    return layout(study, order, left, kept)


def _numbers(offered: Sequence[Candidate]) -> tuple[int, ...]:
    return tuple(one.place for one in offered)


def _placed(
    made: Layout, found: Solution, seconds: float, before: Sequence[Set] | None = None
) -> Placement:
    """A solution told, or where there is none, what to give up and the placement of the rest."""
    if found.status != "impossible":
        late = () if found.chosen else (_too_late(seconds),)
        return placed(made, found, late, _notes(made))
    begun = perf_counter()
    try:
        given_up = impossible_because(made.programme, seconds, GIVEN_UP)
        given_up = with_least_overrun(made.programme, given_up, seconds)
    except RuntimeError:
        return placed(made, found, (_too_late(seconds),), _notes(made))
    unmet = unmet_sentences(made, given_up, seconds)
    less = asking_less(made, given_up)
    if before is None:
        rest = solution(less.programme, seconds)
    else:
        rest = least_changed(less.programme, tuple(before), seconds)
    rest = replace(rest, seconds=found.seconds + perf_counter() - begun)
    return placed(less, rest, unmet, _notes(made))


def _nothing(made: Layout) -> Placement:
    """The placement where no tree of the order may stand at any place that is offered."""
    none = [Relaxation("wish", number, wish.count) for number, wish in enumerate(made.order.wishes)]
    unmet = unmet_sentences(made, none, 0.0)
    return placed(made, Solution((), 0.0, 0.0, "proven", 0.0), unmet, _notes(made))


def _too_late(seconds: float) -> str:
    said = _("Nothing was found in {seconds:g} s: allow more seconds, fewer places or fewer trees.")
    return said.format(seconds=seconds)


def _notes(made: Layout) -> list[str]:
    """What to know of a placement beside its trees."""
    notes = []
    asked = list(made.order.options)
    halves = [tree.name for tree in made.standing if 0 < tree.worth[asked].max() < 1]
    if halves:
        half = _("Counted as half a partner, since the cultivar is not known: {trees}.")
        notes.append(half.format(trees=", ".join(halves)))
    if made.order.budget is not None:
        unpriced = [n for n in made.order.options if np.isnan(made.order.price(n))]
        if unpriced:
            names = ", ".join(made.study.options[n].label for n in unpriced)
            out = _("Left out, since a budget cannot count a tree without a price: {trees}.")
            notes.append(out.format(trees=names))
    return notes
