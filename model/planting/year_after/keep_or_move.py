"""One tree after a year: the best free peg for it, and whether a move pays."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

import numpy as np

from model.planting.year_after.evidence import Evidence
from model.planting.year_after.moving import Chances, Comparison, Terms, advice, comparison
from model.planting.year_after.observations import Observation
from model.planting.year_after.rescoring import Worth
from model.planting.year_after.standing import StandingTree
from model.planting.year_after.transplanting import Window, next_window, survival, years_lost
from model.planting.year_after.worths import Worths
from model.study import Study
from model.trees import TYPICAL, full_size

OLD = 5  # seasons after which a move seldom pays (Royal Horticultural Society)
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

    @property
    def gain_mapped(self) -> float:
        """What the map alone put the other peg above this one [score], before anything was seen."""
        return self.there.mapped - self.here.mapped if self.there else math.nan

    @property
    def gain_seen(self) -> float:
        """The part of the gain that comes from what was seen [score]."""
        return self.gain - self.gain_mapped

    @property
    def mostly_mapped(self) -> bool:
        """Whether more of the gain was on the map before than comes of what was seen."""
        return self.gain_mapped > max(self.gain_seen, self.terms.margin)


def judged_tree(
    study: Study,
    tree: StandingTree,
    trees: Sequence[StandingTree],
    observations: Sequence[Observation],
    on: date,
    terms: Terms | None = None,
    worths: Worths | None = None,
) -> Judged:
    """Whether a tree should be kept, moved or watched for another year.

    `trees` are all that stand or will stand; `worths` those of the same study and observations,
    where more than one tree is judged.
    """
    terms, worths = terms or Terms(), worths or Worths(study, observations)
    seasons = tree.seasons(on)
    evidence = worths.evidence(tree.option, tree.place, seasons)
    here = worths.worth(tree.option, tree.place)
    there = _best(study, tree, trees, worths)
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


def _centred(worth: Worth) -> np.ndarray:
    """Draws about the score itself: a curve that bends must not favour what is less known."""
    known = np.nan_to_num(worth.draws)
    return np.clip(known - known.mean() + worth.score, 0, 1)


def _best(
    study: Study, tree: StandingTree, trees: Sequence[StandingTree], worths: Worths
) -> Worth | None:
    """The free peg worth most to the tree, None where there is none; the first of equals."""
    free = [worths.worth(tree.option, place) for place in free_pegs(study, tree, trees)]
    return max(free, key=lambda worth: worth.score, default=None)


def free_pegs(study: Study, tree: StandingTree, trees: Sequence[StandingTree]) -> list[int]:
    """Pegs where the tree may stand and keeps clear of every other tree at full size."""
    places, ruled = study.ground.places, study.ruling.ruled_out
    spread = full_size(study.traits, study.ground.soils.fertility).spread[TYPICAL]
    others = [other for other in trees if other is not tree]
    at = np.array([other.place for other in others], dtype=int)
    half = spread[[other.option for other in others], at] / 2 if others else np.zeros(0)
    pegs = np.arange(places.cells, places.x.size)
    apart = np.hypot(places.x[pegs][:, None] - places.x[at], places.y[pegs][:, None] - places.y[at])
    clear = (apart >= spread[tree.option, pegs][:, None] / 2 + half + GAP).all(axis=1)
    free = clear & ~ruled[tree.option, pegs] & places.inside[pegs]
    taken = {other.place for other in trees}
    return [int(peg) for peg in pegs[free] if peg not in taken]
