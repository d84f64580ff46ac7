"""All single trees of a site as arrays that grow: those that are planted and their neighbours."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from model.ground.obstacles import described, full_crown, full_height
from model.ground.partners import KIN
from model.ground.sun import CLEAR_STEM
from model.growth.shown import Shown
from model.land import roots
from model.land.covers import Crown
from model.land.leaf_season import leaf_share, monthly_transmission
from model.study import Study
from model.survey.feature import Feature
from model.trees import Catalogue, Neighbour, full_size, neighbour, size_at_age

GROWTHS = ("slow", "usual", "strong")  # the low, typical and high full-grown sizes
WHIP_HEIGHT, WHIP_SPREAD = 1.5, 0.4  # [m] of a maiden whip (common practice, no source)
# A neighbour comes to 95 % of its full size 65 years from seed (common practice, no source: trees
# differ, and the survey says how large each is now and how large it will be).
NEIGHBOUR_RATE, NEIGHBOUR_POWER = 0.05, 1.3
LEAST, MOST = 30, 50  # [yr] that the slider runs to
GROWN = 0.95  # share of the full height from which a tree counts as grown
YEAR = 365.25  # [days]
USUAL_KIN = "apple"  # whose leaves and roots a fruit stands for that has no entry of its own


@dataclass(frozen=True)
class Crowns:
    """The trees at one age, arrays (tree,) [m]: height, spread and reach of the feeding roots."""

    height: np.ndarray
    spread: np.ndarray
    reach: np.ndarray


@dataclass(frozen=True)
class Stand:
    """Trees as arrays (tree,), those that are planted first (`new`), then the neighbours.

    `x`, `y` [m], `ground` [m] in the datum; `full` (2, growth, tree) [m] are full-grown heights and
    spreads, `start` (2, tree) [m] those at year 0, `ahead` (2, tree) [yr] how old the curve is
    then; `rate` [1/yr] and `power` its shape; `first_crop` [yr] after planting. `transmission`
    (tree, month) is what a crown lets through, `root_reach` [1] how far roots run for each metre
    of height. `shown` are the trees that are planted.
    """

    shown: tuple[Shown, ...]
    labels: tuple[str, ...]
    x: np.ndarray
    y: np.ndarray
    ground: np.ndarray
    full: np.ndarray
    start: np.ndarray
    ahead: np.ndarray
    rate: np.ndarray
    power: np.ndarray
    first_crop: np.ndarray
    transmission: np.ndarray
    root_reach: np.ndarray

    @property
    def new(self) -> int:
        """How many of the trees are planted."""
        return len(self.shown)

    def sizes(self, years: np.ndarray, growth: int) -> np.ndarray:
        """Heights and spreads (2, year, tree) [m] at years since planting."""
        age = np.asarray(years, dtype=float)[None, :, None] + self.ahead[:, None]
        full, start = self.full[:, growth][:, None], self.start[:, None]
        return size_at_age(full, age, self.rate, self.power, start)

    def at(self, year: float, growth: int) -> Crowns:
        """The trees in one year."""
        height, spread = self.sizes(np.array([year]), growth)[:, 0]
        return Crowns(height, spread, roots.reach(height, self.root_reach))

    def domes(self, crowns: Crowns) -> list[Crown]:
        """Crowns as they throw shade."""
        base, top = self.ground + CLEAR_STEM * crowns.height, self.ground + crowns.height
        sides = zip(self.x, self.y, crowns.spread / 2, base, top, self.transmission, strict=True)
        return [Crown(*side) for side in sides]

    @cached_property
    def horizon(self) -> int:
        """Year in which the slowest tree that is planted is grown [yr], 30 to 50."""
        if not self.new:
            return LEAST
        years = np.arange(MOST + 1)
        height = self.sizes(years, 1)[0, :, : self.new]
        grown = (height >= GROWN * self.full[0, 1, : self.new]).all(axis=1)
        first = int(years[grown][0]) if grown.any() else MOST
        return int(np.clip(5 * np.ceil(first / 5), LEAST, MOST))


def stand_of(study: Study, shown: Sequence[Shown]) -> Stand:
    """The trees that are shown among the site's single trees."""
    trees = tuple(shown)
    ours = [_planted(study, tree, _head_start(tree, trees)) for tree in trees]
    theirs = [_neighbour(study, f) for f in study.site.of_kind("neighbour_tree")]
    rows = [*ours, *theirs]

    def column(name: str) -> np.ndarray:
        return np.array([row[name] for row in rows], dtype=float)

    labels = tuple(str(row["label"]) for row in rows)
    x, y, count = column("x"), column("y"), len(rows)
    return Stand(
        shown=trees,
        labels=labels,
        x=x,
        y=y,
        ground=np.asarray(study.ground.surface(x, y), dtype=float).reshape(count),
        full=np.moveaxis(column("full").reshape(count, 2, 3), 0, -1),
        start=column("start").reshape(count, 2).T,
        ahead=column("ahead").reshape(count, 2).T,
        rate=column("rate"),
        power=column("power"),
        first_crop=column("first_crop"),
        transmission=column("transmission").reshape(count, 12),
        root_reach=column("root_reach"),
    )


def _head_start(tree: Shown, trees: Sequence[Shown]) -> float:
    """Years by which a tree was planted before the last of them [yr]."""
    days = [one.planted for one in trees if one.planted is not None]
    return (max(days) - tree.planted).days / YEAR if tree.planted is not None else 0.0


def _planted(study: Study, tree: Shown, ahead: float) -> dict[str, object]:
    """One tree that is planted, from its whip to its full size on the soil there."""
    traits, option = study.traits, tree.option
    size = full_size(traits, study.ground.soils.fertility[[tree.place]])
    return {
        "label": tree.label,
        "x": tree.x,
        "y": tree.y,
        "full": [size.height[:, option, 0], size.spread[:, option, 0]],
        "start": [WHIP_HEIGHT, WHIP_SPREAD],
        "ahead": [ahead, ahead],
        "rate": traits.growth_rate[option],
        "power": traits.growth_power[option],
        "first_crop": traits.years_to_crop[option] - ahead,
        **_leaves_and_roots(study, kind_of_fruit(study.catalogue, study.options[option].species)),
    }


def _neighbour(study: Study, feature: Feature) -> dict[str, object]:
    """One tree that stands there, from its present to its full size."""
    now = np.array([feature.number("height_m"), feature.number("crown_m")])
    full = np.array([full_height(feature, study.catalogue), full_crown(feature, study.catalogue)])
    return {
        "label": described(feature),
        "x": feature.geometry.centroid.x,
        "y": feature.geometry.centroid.y,
        "full": np.repeat(full[:, None], 3, axis=1),
        "start": now,
        "ahead": age_at(now / full, NEIGHBOUR_RATE, NEIGHBOUR_POWER),
        "rate": NEIGHBOUR_RATE,
        "power": NEIGHBOUR_POWER,
        "first_crop": np.nan,
        **_leaves_and_roots(study, neighbour(study.catalogue, feature.words("species"))),
    }


def age_at(share: np.ndarray, rate: float, power: float) -> np.ndarray:
    """Age at which a tree has a share of its full size [yr]; infinite where it is full grown.

    The Chapman-Richards curve of `model.trees.size` turned round.

    >>> age_at(np.array([1.0, 0.5]), rate=0.05, power=1.3).round(1).tolist()
    [inf, 17.7]
    """
    with np.errstate(divide="ignore"):
        return np.asarray(-np.log(1 - np.minimum(share, 1.0) ** (1 / power)) / rate)


def kind_of_fruit(catalogue: Catalogue, species: str) -> Neighbour:
    """The kind of tree whose leaves and roots a fruit has."""
    for name in (species, KIN.get(species, ""), USUAL_KIN):
        if name in catalogue.neighbours():
            return neighbour(catalogue, name)
    raise ValueError(f"the catalogue has no neighbouring tree called {USUAL_KIN!r}")


def _leaves_and_roots(study: Study, kind: Neighbour) -> dict[str, object]:
    leaf = leaf_share(study.site.latitude)
    return {
        "transmission": monthly_transmission(kind.transmission_leaf, kind.transmission_bare, leaf),
        "root_reach": kind.root_reach_per_height,
    }
