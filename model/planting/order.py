"""An order: so many trees of each wish, and what the whole must keep to."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from model.factors.pollination import NEAR
from model.planting.picking import AS_IT_COMES, PickingSpread
from model.study import Study

WALK = 1.0  # [m] between two grown crowns, to walk round (common practice, no source)
DUAL = "dual"
USES = {"dessert": ("dessert", DUAL), "cooking": ("cooking", DUAL), DUAL: (DUAL,), "nut": ("nut",)}
"""What an order may ask a fruit for, and the uses of the catalogue that meet it."""


@dataclass(frozen=True)
class Wish:
    """One line of an order: how it is called, how many trees, and which options meet it."""

    label: str
    count: int
    options: tuple[int, ...]


@dataclass(frozen=True)
class Order:
    """All that is asked of a placement.

    prices: of one tree by option, NaN where not known, or empty; budget: for the trees alone.
    bee_range [m]: how far a partner in flower may stand; the RHS calls 18 m effective. walk [m]:
    room between two grown crowns. picking: how the harvest is spread over the season.
    """

    wishes: tuple[Wish, ...]
    budget: float | None = None
    prices: tuple[float, ...] = ()
    bee_range: float = NEAR
    walk: float = WALK
    picking: PickingSpread = AS_IT_COMES

    @property
    def count(self) -> int:
        """Trees of the whole order."""
        return sum(wish.count for wish in self.wishes)

    @property
    def options(self) -> tuple[int, ...]:
        """Every option that meets a wish."""
        return tuple(sorted({option for wish in self.wishes for option in wish.options}))

    def price(self, option: int) -> float:
        """Price of one tree, NaN where not known."""
        return self.prices[option] if self.prices else math.nan


def matching(
    study: Study, species: str = "", cultivar: str = "", rootstock: str = "", use: str = ""
) -> tuple[int, ...]:
    """Numbers of the study's options of these names and this use; an empty word is any."""
    return tuple(
        number
        for number, option in enumerate(study.options)
        if species in ("", option.species)
        and cultivar in ("", option.cultivar)
        and rootstock in ("", option.rootstock)
        and (not use or use_of(study, number) in USES[use])
    )


def use_of(study: Study, option: int) -> str:
    """What the catalogue says an option's fruit is for, an empty word where it does not say."""
    chosen = study.options[option]
    value = study.catalogue.value("cultivars", (chosen.species, chosen.cultivar), "use")
    return str(value.value) if value else ""


def wish_label(species: str = "", cultivar: str = "", rootstock: str = "", use: str = "") -> str:
    """A wish in words.

    >>> wish_label(species="sweet_cherry", use="dessert")
    'dessert sweet cherry'
    >>> wish_label(species="apple", cultivar="Bramley", rootstock="M25")
    'Bramley on M25'
    """
    fruit = cultivar or species.replace("_", " ") or "tree"
    words = [use if not cultivar else "", fruit, f"on {rootstock}" if rootstock else ""]
    return " ".join(word for word in words if word)


def wish_matrix(wishes: Sequence[Wish], options: int) -> np.ndarray:
    """Which options meet which wishes (wish, option) bool."""
    matrix = np.zeros((len(wishes), options), dtype=bool)
    for number, wish in enumerate(wishes):
        matrix[number, list(wish.options)] = True
    return matrix
