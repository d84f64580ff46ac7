"""An order that cannot be met, with what is given up taken out of it."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from model.planting.layout import Layout
from model.planting.solver.programme import Programme, Relaxation
from model.planting.solver.solver import solution

BUDGET_ROUNDING = 0.005  # half of the smallest coin


def asking_less(made: Layout, given_up: Sequence[Relaxation]) -> Layout:
    """A layout that asks for less by what is given up.

    Kinds that are planted without the partners they need score as the study judges them alone.
    """
    scores = np.array(made.programme.scores)
    at = [one.place for one in made.candidates]
    for one in given_up:
        if one.kind == "partners":
            scores[: len(at), one.which] = made.study.shown_scores(one.which)[at]
    less = replace(made.programme, scores=scores)
    return replace(made, programme=without(less, given_up))


def without(programme: Programme, given_up: Sequence[Relaxation]) -> Programme:
    """A programme that asks for less by what is given up."""
    counts, needs = np.array(programme.counts), np.array(programme.needs)
    seasons = None if programme.season_counts is None else np.array(programme.season_counts)
    budget, lifted = programme.budget, set()
    for one in given_up:
        if one.kind == "wish":
            counts[one.which] -= round(one.by)
        elif one.kind == "partners":
            needs[one.which] = 0.0
        elif one.kind == "budget" and budget is not None:
            budget += one.by + BUDGET_ROUNDING
        elif one.kind == "season" and seasons is not None:
            seasons[one.which] += (-one.by, one.by)
        elif one.kind == "fixed":
            lifted.add(one.which)
    fixed = tuple(tree for tree in programme.fixed if tree[0] not in lifted)
    asked = replace(programme, counts=counts, needs=needs, budget=budget, fixed=fixed)
    return replace(asked, season_counts=seasons)


def with_least_overrun(
    programme: Programme, given_up: Sequence[Relaxation], seconds: float
) -> tuple[Relaxation, ...]:
    """What is given up, a budget by no more than the cheapest trees that can be placed cost."""
    if programme.budget is None or not any(one.kind == "budget" for one in given_up):
        return tuple(given_up)
    prices = np.asarray(programme.prices)
    costs = np.where(np.isfinite(programme.scores), -prices, np.nan)
    cheapest = solution(replace(without(programme, given_up), scores=costs, budget=None), seconds)
    by = -cheapest.total - programme.budget if cheapest.chosen else None
    return tuple(
        replace(one, by=by) if one.kind == "budget" and by is not None else one for one in given_up
    )
