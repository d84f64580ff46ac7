"""A placement: which tree of an order stands where, what it is worth, and how sure that is."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True)
class Planted:
    """One tree of an order at its place.

    `place` and `option` are the study's numbers, `name` the place in words, `x` and `y` [m] east
    and north of the origin, `wish` the line of the order that it meets, `score` 0 to 1 with its
    partners there, `partners` the trees in reach that serve it in flower, each with how far it is.
    """

    place: int
    name: str
    x: float
    y: float
    option: int
    wish: str
    score: float
    partners: tuple[str, ...]


@dataclass(frozen=True)
class Placement:
    """An order on the ground.

    `total` is the sum of the scores, `bound` what no placement of the same trees at the same
    candidate places can exceed, `proven` whether nothing better exists; `unmet` says in sentences
    what of the order could not be met, `notes` what to know beside. `choices` are the study's
    when it was placed, so that a page can say that they have changed since. `offered` are the
    places that were open to it, `kept` the trees (place, option) that were set beforehand.
    """

    trees: tuple[Planted, ...]
    total: float
    bound: float
    seconds: float
    proven: bool
    unmet: tuple[str, ...]
    choices: Mapping[str, Any]
    notes: tuple[str, ...] = ()
    offered: tuple[int, ...] = ()
    kept: tuple[tuple[int, int], ...] = ()

    @property
    def gap(self) -> float:
        """Share of the bound by which a better placement may still exceed this one."""
        return (self.bound - self.total) / self.bound if self.bound > 0 else 0.0

    @property
    def places(self) -> tuple[int, ...]:
        """The places that are taken, in the order of the trees."""
        return tuple(tree.place for tree in self.trees)
