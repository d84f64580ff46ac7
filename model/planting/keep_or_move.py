"""One tree after a year: the best free peg for it, and whether a move pays."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

import numpy as np

from model.planting.evidence import Evidence, evidence_at
from model.planting.moving import Chances, Comparison, Terms, advice, comparison
from model.planting.observations import Observation
from model.planting.rescoring import Worth, worth_at
from model.planting.standing import StandingTree
from model.planting.transplanting import DWARF, MIDDLING, Window, next_window, survival, years_lost
from model.study import Study
from model.trees import TYPICAL, full_size

OLD = 5  # seasons after which a move seldom pays (Royal Horticultural Society)
# Useful years of trees by the growth rate of the rootstock [1/yr] (common practice, no source)
LIVES, LONGEST = ((DWARF, 20.0), (MIDDLING, 30.0)), 50.0
GAP = 1.0  # [m] to walk between two full-grown crowns (common practice, no source)


@dataclass(frozen=True)
class Judged:
    """One tree judged: what was seen, what it is worth here and at the best free peg, the advice.

    `there` and `compared` are None where no free peg would take it. `gain` [score] is what the
    other peg is worth beyond this one, `surer` the share of draws in which it is worth more.
    """

    tree: StandingTree
    seasons: int
    evidence: tuple[Evidence, ...]
    here: Worth
    there: Worth | None
    chances: Chances
    compared: Comparison | None
    gain: float
    surer: float
    advice: str
    window: Window
    terms: Terms


def judged_tree(
    study: Study,
    tree: StandingTree,
    trees: Sequence[StandingTree],
    observations: Sequence[Observation],
    on: date,
    terms: Terms | None = None,
    taken: Sequence[int] = (),
) -> Judged:
    """Whether a tree should be kept, moved or watched for another year.

    `taken` are pegs promised to trees that were judged before it.
    """
    terms = terms or Terms(years=life(study, tree.option))
    seasons = tree.seasons(on)
    evidence = evidence_at(study, tree.place, tree.option, observations, seasons)
    here = worth_at(study, tree.option, tree.place, evidence)
    there = _best(study, tree, trees, observations, taken)
    chances = _chances(study, tree, seasons)
    window = next_window(on, study.ground.latitude)
    if there is None or not math.isfinite(here.score):
        no_way = _nowhere(here, there, terms)
        return Judged(
            tree,
            seasons,
            evidence,
            here,
            there,
            chances,
            None,
            math.nan,
            math.nan,
            no_way,
            window,
            terms,
        )
    next_year = _chances(study, tree, seasons + 1)
    stays, moves = _centred(here), _centred(there)
    compared = comparison(stays, moves, chances, next_year, terms)
    doubted = [one.what for one in evidence if one.doubted and one.what != "leader_growth"]
    gain = there.score - here.score
    said = advice(compared, gain, terms, doubted)
    if said == "wait" and seasons >= OLD and compared.move <= compared.stay:
        said = "keep"  # it only grows harder to move
    surer = float((moves > stays).mean())
    return Judged(
        tree, seasons, evidence, here, there, chances, compared, gain, surer, said, window, terms
    )


def _nowhere(here: Worth, there: Worth | None, terms: Terms) -> str:
    """A tree that stands where it may not must go; without a free peg it can only be kept."""
    must = not math.isfinite(here.score)
    return "move" if must and there is not None and there.score > terms.margin else "keep"


def _chances(study: Study, tree: StandingTree, seasons: int) -> Chances:
    species = study.options[tree.option].species
    rate = float(study.traits.growth_rate[tree.option])
    return Chances(survival(seasons, species), years_lost(seasons, rate), seasons + 1.0)


def life(study: Study, option: int) -> float:
    """Years that a tree is looked ahead for, by how fast its rootstock grows up [yr]."""
    rate = float(study.traits.growth_rate[option])
    return next((years for least, years in LIVES if rate >= least), LONGEST)


def _centred(worth: Worth) -> np.ndarray:
    """Draws about the score itself: a curve that bends must not favour what is less known."""
    known = np.nan_to_num(worth.draws)
    return np.clip(known - known.mean() + worth.score, 0, 1)


def _best(
    study: Study,
    tree: StandingTree,
    trees: Sequence[StandingTree],
    observations: Sequence[Observation],
    taken: Sequence[int],
) -> Worth | None:
    """The free peg worth most to the tree, None where there is none; the first of equals."""
    worths = [
        worth_at(study, tree.option, place, evidence_at(study, place, tree.option, observations))
        for place in free_pegs(study, tree, trees, taken)
    ]
    return max(worths, key=lambda worth: worth.score, default=None)


def free_pegs(
    study: Study, tree: StandingTree, trees: Sequence[StandingTree], taken: Sequence[int] = ()
) -> list[int]:
    """Pegs where the tree may stand and keeps clear of every other tree at full size."""
    places, ruled = study.ground.places, study.ruling.ruled_out
    spread = full_size(study.traits, study.ground.soils.fertility).spread[TYPICAL]
    others = [other for other in trees if other is not tree]
    occupied = {other.place for other in trees} | set(taken)
    free = []
    for place in range(places.cells, places.x.size):
        if place in occupied or ruled[tree.option, place] or not places.inside[place]:
            continue
        clear = True
        for other in others:
            apart = math.dist(
                (places.x[place], places.y[place]), (places.x[other.place], places.y[other.place])
            )
            crowns = spread[tree.option, place] + spread[other.option, other.place]
            clear = clear and apart >= crowns / 2 + GAP
        if clear:
            free.append(place)
    return free
