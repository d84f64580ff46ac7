"""What a plan costs as far as prices are known, and what has none."""

from dataclasses import dataclass

import pandas as pd


@dataclass(frozen=True)
class Bill:
    """Sum of the known prices, their currency (empty when none is known), items without one."""

    total: float
    currency: str
    unpriced: tuple[str, ...]

    @property
    def words(self) -> str:
        """The bill in a sentence.

        >>> Bill(120.5, "EUR", ("tank, 50 l",)).words
        'Together 120.50 EUR, and what has no price given: tank, 50 l.'
        """
        missing = ", ".join(self.unpriced)
        if not self.currency:
            return f"No price given for: {missing}." if missing else "Nothing to buy."
        more = f", and what has no price given: {missing}" if missing else ""
        return f"Together {self.total:.2f} {self.currency}{more}."


def bill(needs: pd.DataFrame) -> Bill:
    """The bill of a table of needs; an item without a price is named and counts nothing."""
    unknown = needs["price"].isna()
    currencies = needs.loc[~unknown, "currency"].tolist()
    return Bill(
        total=float(needs.loc[~unknown, "price"].sum()),
        currency=currencies[0] if currencies else "",
        unpriced=tuple(needs.loc[unknown, "item"]),
    )
