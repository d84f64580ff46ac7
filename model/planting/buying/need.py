"""One thing to buy for a plan."""

from collections.abc import Sequence
from dataclasses import dataclass

from model.language import marked
from model.planting.buying.prices import Prices
from model.planting.placement import Planted

PRACTICE = marked("common practice, no source")


@dataclass(frozen=True)
class Need:
    """What is bought: its kind and how it is called, for which trees, how much, why, by whom.

    `item`, `why` and `source` are in the language in use; `sorts` are the names after the colon
    under which prices.csv may have it, best first.
    """

    kind: str
    item: str
    trees: Sequence[Planted]
    quantity: float
    why: str
    source: str
    sorts: tuple[str, ...] = ()

    def price_name(self, prices: Prices) -> str:
        """Under which name prices.csv has its price, or is to have it.

        >>> Need("stake", "stake, short", (), 2, "", "", ("short",)).price_name(Prices())
        'stake:short'
        >>> Need("tank", "tank, 50 l", (), 1, "", "", ("50 l",)).price_name(Prices({"tank": 9.0}))
        'tank'
        """
        if self.kind in ("tree", "stake") and self.sorts:
            return f"{self.kind}:{self.sorts[0]}"
        return prices.item(self.kind, *self.sorts) or self.kind
