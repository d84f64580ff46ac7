"""Visits that each tree of a plan asks for in a year, by work, and the rounds they make together.

A round serves all trees that want the same work at the same time. Pruning is a round in winter
and one in summer; picking a round in every week in which any tree is picked; every other work is
done to all trees on the same days.
"""

from collections.abc import Iterator, Sequence

import numpy as np

from model.planting.dates.pruning import pruning_table
from model.planting.placement import Planted
from model.study import Study
from model.trees.vocabulary import VISITS

WEEK = 7
Rounds = dict[str, np.ndarray]


def visits(study: Study, trees: Sequence[Planted]) -> dict[str, np.ndarray]:
    """Visits a year of each grown tree by work (tree,) [1/yr], from the catalogue; 0 if unknown."""
    return {
        work: np.array([_number(study, tree, f"visits_{work}") for tree in trees])
        for work in VISITS
    }


def rounds(study: Study, trees: Sequence[Planted]) -> Rounds:
    """Visits of each tree by round (tree,) [1/yr]: works that fall together under one name."""
    found: Rounds = {}
    for work, counts in visits(study, trees).items():
        if work == "pruning":
            seasons = [_pruning_season(study, tree) for tree in trees]
            for season in dict.fromkeys(seasons):
                at = np.array([one == season for one in seasons])
                found[f"pruning in {season}"] = np.where(at, counts, 0.0)
        elif work == "picking":
            found |= _picking(study, trees, counts)
        else:
            found[work] = counts
    return found


def layers(counts: np.ndarray) -> Iterator[tuple[float, list[int]]]:
    """How often a year which trees are gone round, from their visits (tree,).

    A tree that wants two visits and one that wants six share two rounds; four more serve the
    second alone.

    >>> [(float(often), who) for often, who in layers(np.array([2.0, 6.0]))]
    [(2.0, [0, 1]), (4.0, [1])]
    """
    before = 0.0
    for level in np.unique(counts[counts > 0]):
        yield level - before, np.flatnonzero(counts >= level).tolist()
        before = level


def _picking(study: Study, trees: Sequence[Planted], counts: np.ndarray) -> Rounds:
    """Picking by week of the year: each tree's visits spread evenly over its own weeks."""
    first, last = study.traits.pick_first, study.traits.pick_last
    found: Rounds = {}
    for number, tree in enumerate(trees):
        span = first[tree.option], last[tree.option]
        if not np.isfinite(span).all():
            found[f"picking {tree.name}"] = np.where(np.arange(len(trees)) == number, counts, 0.0)
            continue
        whole = int(np.ceil(counts[number]))
        for day in np.linspace(*span, max(whole, 1)):
            week = found.setdefault(f"picking in week {int(day) // WEEK + 1}", np.zeros(len(trees)))
            week[number] += counts[number] / max(whole, 1)
    return found


def _pruning_season(study: Study, tree: Planted) -> str:
    found = pruning_table().get(study.options[tree.option].species)
    return found.season if found else "winter"


def _number(study: Study, tree: Planted, trait: str) -> float:
    option = study.options[tree.option]
    value = study.catalogue.value("cultivars", (option.species, option.cultivar), trait)
    return float(np.nan_to_num(value.number)) if value else 0.0
