"""prices.csv: what the user pays for a tree, a stake or a metre of hose."""

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from model.language import marked
from model.survey.attribute import REQUIRED, Attribute, Wrong
from model.survey.faults import SurveyFaults, listed, nearest_name, shown
from model.survey.folder import Folder
from model.survey.table import Row, checked_rows
from model.trees import Catalogue, Option

PRICES_FILE = "prices.csv"
MOST_PRICES = 5_000
UNITS = {
    "tree": marked("tree"),
    "stake": marked("piece"),
    "tie": marked("piece"),
    "guard": marked("piece"),
    "mulch": "m3",
    "lime": "kg",
    "sulphur": "kg",
    "soil test": marked("sample"),
    "hose": "m",
    "can": marked("piece"),
    "tank": marked("piece"),
}
"""What can be priced, and the unit that one price is for."""
KINDS_WITH_SORTS = ("tree", "stake", "guard", "tank")
COLUMNS = (
    Attribute("item", "", REQUIRED, meaning="such as tree, tree:M9, stake, guard:roe deer or hose"),
    Attribute("price", "", math.nan, 0, 1_000_000, meaning="for one; blank where not known"),
    Attribute("currency", "", REQUIRED, meaning="three letters such as EUR, one for a file"),
    Attribute("note", "", "", meaning="anything worth remembering, such as who asks it"),
)
CURRENCY = re.compile(r"[A-Z]{3}")  # ISO 4217


@dataclass(frozen=True)
class Prices:
    """Prices by item, in one currency; an item that is missing has no known price."""

    items: Mapping[str, float] = field(default_factory=dict)
    currency: str = ""

    def of(self, kind: str, *sorts: str) -> float:
        """Price of one of a kind, the first of the sorts that has one going before the kind's own.

        NaN where none is known.

        >>> Prices({"guard": 2.0, "guard:roe deer": 6.5}, "EUR").of("guard", "roe deer")
        6.5
        """
        return self.items.get(folded(self.item(kind, *sorts)), math.nan)

    def item(self, kind: str, *sorts: str) -> str:
        """The item of the file whose price that is, an empty word where there is none."""
        for named in (*(f"{kind}:{sort}" for sort in sorts), kind):
            if not math.isnan(self.items.get(folded(named), math.nan)):
                return named.replace("_", " ")
        return ""

    def of_tree(self, option: Option) -> float:
        """Price of one tree: of that tree, else its cultivar, its rootstock, its species, any."""
        return self.of("tree", *tree_sorts(option))


def tree_sorts(option: Option) -> tuple[str, ...]:
    """What a tree may be priced as, the most specific first."""
    return option.label, option.cultivar, option.rootstock, option.species


def folded(item: str) -> str:
    """An item's name without regard to capitals, underscores and blanks round the colon."""
    kind, _, sort = item.casefold().replace("_", " ").replace("\u2019", "'").partition(":")
    return f"{kind.strip()}:{sort.strip()}" if sort.strip() else kind.strip()


def read_prices(folder: str | Path, catalogue: Catalogue, name: str = PRICES_FILE) -> Prices:
    """The prices of a survey folder, none when it has no such file.

    Raises SurveyFaults with every fault of the file.
    """
    reading = Folder(Path(folder))
    if not reading.present([name]):
        return _or_faults(Prices(), reading)
    rows = checked_rows(reading, name, COLUMNS, MOST_PRICES)
    names = _tree_names(catalogue)
    first: dict[str, int] = {}
    for row in rows:
        item = folded(row.text_of("item"))
        for column, wrong in (*_wrong_item(item, names), *_wrong_currency(row, rows[0])):
            reading.fault(name, row.number, column, wrong)
        if item in first:
            again = f"{shown(row.text_of('item'))} again, as in row {first[item]}"
            wrong = Wrong(again, "each item once", "deleting one of the two")
            reading.fault(name, row.number, "item", wrong)
        first.setdefault(item, row.number)
    priced = {folded(row.text_of("item")): row.number_of("price") for row in rows}
    return _or_faults(Prices(priced, rows[0].text_of("currency") if rows else ""), reading)


def _or_faults(prices: Prices, reading: Folder) -> Prices:
    if reading.faults:
        raise SurveyFaults(reading.faults)
    return prices


def _wrong_item(item: str, names: dict[str, str]) -> list[tuple[str, Wrong]]:
    """What is wrong with an item: a kind that is not bought, a tree that there is not."""
    kind, _, sort = item.partition(":")
    if kind not in UNITS:
        return [("item", Wrong(shown(item), listed(UNITS), nearest_name(kind, UNITS)))]
    if sort and kind not in KINDS_WITH_SORTS:
        return [("item", Wrong(shown(item), kind, f"leaving out {shown(':' + sort)}"))]
    if kind == "tree" and sort and sort not in names:
        expected = "a tree, cultivar, rootstock or species of the catalogue after the colon"
        near = (name for name in names.values() if " on " not in name)  # the parts, not every pair
        return [("item", Wrong(shown(item), expected, nearest_name(sort, near)))]
    return []


def _wrong_currency(row: Row, first: Row) -> list[tuple[str, Wrong]]:
    found, expected = row.text_of("currency"), first.text_of("currency")
    if not CURRENCY.fullmatch(found):
        mend = "writing its ISO 4217 code"
        wrong = Wrong(shown(found), "three capital letters such as EUR", mend)
        return [("currency", wrong)]
    if found != expected and CURRENCY.fullmatch(expected):
        wrong = Wrong(shown(found), f"{expected} as in row {first.number}", "using one currency")
        return [("currency", wrong)]
    return []


def _tree_names(catalogue: Catalogue) -> dict[str, str]:
    """Every name that may follow `tree:`, folded, with its own spelling."""
    names = [*catalogue.species(), *catalogue.rootstocks()]
    for option in catalogue.options():
        names += [option.cultivar, option.label]
    return {folded(name): name for name in names}
