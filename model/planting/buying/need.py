"""One thing to buy for a plan."""

from collections.abc import Sequence
from dataclasses import dataclass

from model.planting.placement import Planted

PRACTICE = "common practice, no source"


@dataclass(frozen=True)
class Need:
    """What is bought: its kind and how it is called, for which trees, how much, why, by whom.

    `sorts` are the names after the colon under which prices.csv may have it, best first.
    """

    kind: str
    item: str
    trees: Sequence[Planted]
    quantity: float
    why: str
    source: str
    sorts: tuple[str, ...] = ()
