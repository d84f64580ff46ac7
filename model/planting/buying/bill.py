"""What a plan costs as far as prices are known, and what has none."""

from dataclasses import dataclass

import pandas as pd

from model.language import _


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
        if not self.currency and not self.unpriced:
            return _("Nothing to buy.")
        said = _("Together {total:.2f} {currency}.")
        if self.unpriced:
            said = _("Together {total:.2f} {currency}, and what has no price given: {items}.")
        if not self.currency:
            said = _("No price given for: {items}.")
        items = ", ".join(self.unpriced)
        return said.format(total=self.total, currency=self.currency, items=items)


def bill(needs: pd.DataFrame) -> Bill:
    """The bill of a table of needs; an item without a price is named and counts nothing."""
    unknown = needs["price"].isna()
    currencies = needs.loc[~unknown, "currency"].tolist()
    return Bill(
        total=float(needs.loc[~unknown, "price"].sum()),
        currency=currencies[0] if currencies else "",
        unpriced=tuple(needs.loc[unknown, "item"]),
    )
