"""Fruit trees that already stand there, as partners in flower for a new one."""

from dataclasses import dataclass

import numpy as np
import shapely

from model.ground.obstacles import described
from model.survey.site import Site

# Fruits that pollinate one another, by what a survey or the catalogue calls them.
KIN = {
    "apple": "apple",
    "crab_apple": "apple",
    "pear": "pear",
    "plum": "plum",
    "european_plum": "plum",
    "gage": "plum",
    "damson": "plum",
    "cherry": "cherry",
    "sweet_cherry": "cherry",
    "sour_cherry": "cherry",
    "apricot": "apricot",
    "hazel": "hazel",
    "walnut": "walnut",
    "sweet_chestnut": "sweet_chestnut",
}


@dataclass(frozen=True)
class Partners:
    """Fruit trees on and round the site.

    `labels`, `kin` and `cultivars` (partner,) say what each is (a cultivar may not be known, then
    empty); `distance` (partner, place) [m].
    """

    labels: tuple[str, ...]
    kin: tuple[str, ...]
    cultivars: tuple[str, ...]
    distance: np.ndarray


def partners_of(site: Site, x: np.ndarray, y: np.ndarray) -> Partners:
    """The fruit trees of a survey, none if none is drawn."""
    points = np.asarray(shapely.points(x, y))
    trees = [tree for tree in site.of_kind("neighbour_tree") if _name(tree.words("species")) in KIN]
    distance = [np.asarray(shapely.distance(points, tree.geometry)) for tree in trees]
    return Partners(
        labels=tuple(described(tree) for tree in trees),
        kin=tuple(KIN[_name(tree.words("species"))] for tree in trees),
        cultivars=tuple(tree.words("cultivar") for tree in trees),
        distance=np.array(distance).reshape(len(trees), points.size),
    )


def _name(species: str) -> str:
    return species.strip().lower().replace(" ", "_")
