"""Who serves whom in flower: the trees of an order, and the fruit trees that stand there already.

Rules: model/factors/pollination.py (RHS, Pollination of fruit trees). A partner counts whole within
the bees' range and not at all beyond it; one whose cultivar or flowering group is not known counts
half (common practice, no source); a cultivar counts once however many trees of it stand near.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from model.factors.pollination import OWN, UNKNOWN, fits
from model.ground.obstacles import described
from model.ground.partners import KIN
from model.language import _
from model.study import Study
from model.trees import Traits, traits

Array = np.ndarray
WHOLE = 1.0
ROUNDING = 1e-9


@dataclass(frozen=True, eq=False)
class Tree:
    """A tree that may serve others: its name in words, where it is, which clone, how well.

    `clone` is one word for all trees of a cultivar; `worth` (option,) [0 to 1] is that of its
    pollen for the study's options.
    """

    name: str
    x: float
    y: float
    clone: str
    worth: Array


def pollen_needs(kinds: Traits) -> Array:
    """Partners that each option must have (option,): 1, 2 for a triploid, 0 if it bears by itself.

    One that is partly self-fertile bears by itself, though more with a partner: it has to have
    none. Source: RHS, Pollination of fruit trees; partly: common practice, no source.
    """
    by_itself = (own_pollen(kinds) > 0) & ~kinds.triploid
    return np.where(by_itself, 0.0, np.where(kinds.triploid, 2.0, WHOLE))


def own_pollen(kinds: Traits) -> Array:
    """Share of its need that each option meets by itself (option,) [0 to 1]."""
    alone = np.array([OWN.get(word, 0.0) for word in kinds.self_fertile])
    return np.where(np.array(kinds.pollination) == "none needed", WHOLE, alone)


def pollen_at_least(kinds: Traits) -> Array:
    """Share of its need that each option has at least, once its partners stand (option,)."""
    return np.where(pollen_needs(kinds) > 0, WHOLE, own_pollen(kinds))


def clone_of(species: str, cultivar: str) -> str:
    """One word for all trees of a cultivar, whatever they stand on."""
    return f"{KIN.get(species, species)} {cultivar}"


def pollen_worths(study: Study) -> Array:
    """Worth of the column's pollen to the row's tree (option, option) [0 to 1]."""
    kin = np.array([KIN.get(option.species, "") for option in study.options])
    akin = (kin[:, None] == kin) & (kin != "")
    givers = [traits(study.catalogue, [option]) for option in study.options]
    return np.where(akin, np.stack([fits(study.traits, giver) for giver in givers], axis=1), 0.0)


def standing_partners(study: Study) -> tuple[Tree, ...]:
    """The fruit trees drawn on and round the site."""
    kin = np.array([KIN.get(option.species, "") for option in study.options])
    found: list[Tree] = []
    for tree in study.site.of_kind("neighbour_tree"):
        of_kin = KIN.get(tree.words("species").strip().lower().replace(" ", "_"))
        if of_kin is None:
            continue
        cultivar = tree.words("cultivar")
        giver = [o for o in study.catalogue.options() if o.cultivar == cultivar][:1]
        known = traits(study.catalogue, giver) if giver else None
        worth = np.full(kin.size, UNKNOWN) if known is None else fits(study.traits, known)
        middle = shapely.centroid(tree.geometry)
        own = f"{described(tree)}, number {len(found)}"  # of its own, as far as anybody knows
        clone = clone_of(giver[0].species, cultivar) if giver else own
        worth = np.where(kin == of_kin, worth, 0.0)
        found.append(Tree(described(tree), float(middle.x), float(middle.y), clone, worth))
    return tuple(found)


def partners_in_reach(
    option: int, x: float, y: float, trees: Sequence[Tree], bee_range: float
) -> tuple[tuple[Tree, float], ...]:
    """Who serves a tree there, nearest first and each clone once, with the distance [m]."""
    away = [float(np.hypot(tree.x - x, tree.y - y)) for tree in trees]
    found: dict[str, tuple[Tree, float]] = {}
    for tree, distance in sorted(zip(trees, away, strict=True), key=lambda pair: pair[1]):
        itself = distance < ROUNDING
        if not itself and tree.worth[option] > 0 and distance <= bee_range + ROUNDING:
            found.setdefault(tree.clone, (tree, distance))
    return tuple(found.values())


def lacking(need: float, option: int, served: Sequence[tuple[Tree, float]]) -> float:
    """How many partners a tree is short of, 0 where it is served."""
    return max(need - sum(float(tree.worth[option]) for tree, _ in served), 0.0)


def partner_words(option: int, served: Sequence[tuple[Tree, float]]) -> tuple[str, ...]:
    """Each partner with its distance: 'Beth on Quince A at Top field, 14 m'."""
    whole, half = _("{tree}, {away:.0f} m"), _("{tree}, {away:.0f} m (counts half)")
    return tuple(
        (half if tree.worth[option] < WHOLE else whole).format(tree=tree.name, away=distance)
        for tree, distance in served
    )
