"""Orders on a level made-up field, and a second opinion on whether a placement keeps the rules."""

from collections.abc import Sequence
from itertools import combinations

import numpy as np

from model.factors.pollination import fits
from model.planting.candidates import Candidate, place_name
from model.planting.order import Order, Wish
from model.planting.placement import Placement
from model.study import Study
from model.survey.feature import Feature
from model.trees import TYPICAL, Option, full_size, traits
from tests.model.small_site import CATALOGUE, spot, study

DISCOVERY = Option("apple", "Discovery", "M9")
COX = Option("apple", "Cox's Orange Pippin", "M26")
SPARTAN = Option("apple", "Spartan", "M26")
BRAMLEY = Option("apple", "Bramley", "M26")
STELLA = Option("sweet_cherry", "Stella", "Gisela 5")
VICTORIA = Option("european_plum", "Victoria", "St Julien A")


def field(
    options: Sequence[Option],
    pegs: Sequence[tuple[float, float]] = (),
    features: Sequence[Feature] = (),
    **given: object,
) -> Study:
    """A level field with pegs named P0, P1 and so on; the house in its middle."""
    spots = tuple(spot(f"P{number}", x, y) for number, (x, y) in enumerate(pegs))
    return study(features, options, spots=spots, **given)


def row_of_pegs(*steps: float, y: float = 12.0, start: float = 6.0) -> list[tuple[float, float]]:
    """Pegs in a row to the east, each a step from the one before."""
    return [(float(x), y) for x in np.cumsum([start, *steps])]


def order(made: Study, *counts: int, **given: object) -> Order:
    """An order of so many of each of a study's options, one wish an option."""
    wishes = [
        Wish(made.options[number].label, count, (number,))
        for number, count in enumerate(counts)
        if count
    ]
    return Order(tuple(wishes), **given)


def pegs_of(made: Study) -> tuple[Candidate, ...]:
    """The pegs alone."""
    places = made.ground.places
    return tuple(Candidate(n, place_name(made, n)) for n in range(places.cells, places.x.size))


def stand(placed: Placement) -> dict[str, int]:
    """Option by place name."""
    return {tree.name: tree.option for tree in placed.trees}


def broken_rules(made: Study, asked: Order, placed: Placement) -> list[str]:
    """Every rule that a placement breaks, each judged tree by tree and pair by pair."""
    ruled = made.ruling.ruled_out
    broken = [f"{t.name} is ruled out" for t in placed.trees if ruled[t.option, t.place]]
    radius = full_size(made.traits, made.ground.soils.fertility).spread[TYPICAL] / 2
    for one, other in combinations(placed.trees, 2):
        apart = float(np.hypot(one.x - other.x, one.y - other.y))
        wanted = radius[one.option, one.place] + radius[other.option, other.place] + asked.walk
        if apart < wanted - 1e-6:
            broken.append(f"{one.name} and {other.name} are {apart:.2f} m apart, not {wanted:.2f}")
    for tree in placed.trees:
        worth = _pollen(made, asked, placed, tree)
        own = {"yes": 2.0, "partly": 1.0}.get(made.traits.self_fertile[tree.option], 0.0)
        if worth + own < 1 + bool(made.traits.triploid[tree.option]):
            broken.append(f"{tree.name} has {worth:g} partners")
    for wish in asked.wishes:
        met = sum(tree.wish == wish.label and tree.option in wish.options for tree in placed.trees)
        if met != wish.count:
            broken.append(f"{wish.label}: {met} of {wish.count}")
    return broken


def _pollen(made: Study, asked: Order, placed: Placement, tree) -> float:
    """Different cultivars in reach, planted with it, by the pollination factor's own rule."""
    species = made.options[tree.option].species
    cultivars = {
        made.options[other.option].cultivar: other.option
        for other in placed.trees
        if made.options[other.option].species == species
        and np.hypot(other.x - tree.x, other.y - tree.y) <= asked.bee_range + 1e-9
    }
    taker = traits(CATALOGUE, [made.options[tree.option]])
    givers = (traits(CATALOGUE, [made.options[option]]) for option in cultivars.values())
    return sum(float(fits(taker, giver)[0]) for giver in givers)


__all__ = [
    "BRAMLEY", "COX", "DISCOVERY", "SPARTAN", "STELLA", "VICTORIA", "broken_rules", "field",
    "order", "pegs_of", "row_of_pegs", "stand",
]  # fmt: skip
