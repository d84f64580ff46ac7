"""What to buy for a plan: trees, stakes, guards, mulch, lime and water, each with its reason."""

import math
from collections.abc import Callable, Sequence
from typing import Any

import pandas as pd

from model.language import _, marked
from model.planting.buying.guarding import guard
from model.planting.buying.need import PRACTICE, Need
from model.planting.buying.prices import UNITS, Prices, tree_sorts
from model.planting.buying.soil_needs import soil_needs
from model.planting.buying.staking import staking
from model.planting.buying.tree_names import tree_names
from model.planting.buying.water_needs import water_needs
from model.planting.placement import Placement, Planted
from model.study import Study

NEEDS = ["item", "trees", "quantity", "unit", "each", "price", "currency", "why", "source"]
CIRCLE = 1.0  # [m2] of mulch round a tree (common practice, no source)
MULCH_DEPTHS = (0.075, 0.10)  # [m] (common practice, no source)
AGE = marked("as placed; ask for one or two years old, bare root")
STAKES = {
    "permanent": marked("2.4 m, driven 60 cm, as high as the first branches"),
    "short": marked("1.2 to 1.5 m, driven 60 cm, a third of the stem above ground"),
}
STAKE_ITEMS = {"permanent": marked("stake, permanent"), "short": marked("stake, short")}
"""Size of each sort of stake (common practice, no source)."""
Trees = Sequence[Planted]


def needs(study: Study, placement: Placement, prices: Prices | None = None) -> pd.DataFrame:
    """What to buy for a plan, one row an item.

    Columns: item, trees (which it is for), quantity, unit, each (price of one), price (of all),
    currency, why, source. A price that is not known is NaN, never 0. Its `attrs["price_names"]`
    are the names under which prices.csv has each row's price, or is to have it.
    """
    known = prices or Prices()
    trees = placement.trees
    if not trees:
        return pd.DataFrame(columns=NEEDS)
    bought = [
        *_trees(study, trees),
        *_stakes(study, trees),
        _ties(study, trees),
        *_guards(study, trees),
        _mulch(trees),
        *soil_needs(study, trees),
        *water_needs(study, trees),
    ]
    rows = [_row(study, placement, known, one) for one in bought]
    table = pd.DataFrame(rows, columns=NEEDS)
    table.attrs["price_names"] = tuple(one.price_name(known) for one in bought)
    return table


def _row(study: Study, placement: Placement, prices: Prices, one: Need) -> dict[str, Any]:
    """A need with its price, and which of the file's prices that is."""
    each = prices.of(one.kind, *one.sorts)
    item = prices.item(one.kind, *one.sorts)
    return {
        "item": one.item,
        "trees": tree_names(study, placement, one.trees),
        "quantity": one.quantity,
        "unit": _(UNITS[one.kind]),
        "each": each,
        "price": one.quantity * each,
        "currency": "" if math.isnan(each) else prices.currency,
        "why": _("{why}; priced as {item}").format(why=one.why, item=item) if item else one.why,
        "source": one.source,
    }


def _grouped(trees: Trees, key: Callable[[Planted], Any]) -> dict[Any, list[Planted]]:
    groups: dict[Any, list[Planted]] = {}
    for tree in trees:
        groups.setdefault(key(tree), []).append(tree)
    return groups


def _trees(study: Study, trees: Trees) -> list[Need]:
    source = _("the order as placed; age: common practice, no source")
    return [
        Need(
            *("tree", study.options[option].label, of_option, len(of_option)),
            *(_(AGE), source, tree_sorts(study.options[option])),
        )
        for option, of_option in _grouped(trees, lambda tree: tree.option).items()
    ]


def _stakes(study: Study, trees: Trees) -> list[Need]:
    found = []
    for sort, of_sort in _grouped(trees, lambda t: staking(study, t.option).sort).items():
        says: dict[str, None] = {}
        sources: dict[str, None] = {}
        for tree in of_sort:
            stake = staking(study, tree.option)
            says[f"{study.options[tree.option].rootstock}: {stake.words}"] = None
            sources[stake.source] = None
        why = "; ".join([_(STAKES[sort]), *says])
        source = "; ".join([*sources, _("size: common practice, no source")])
        item = _(STAKE_ITEMS[sort])
        found.append(Need("stake", item, of_sort, len(of_sort), why, source, (sort,)))
    return found


def _ties(study: Study, trees: Trees) -> Need:
    ties = sum(staking(study, tree.option).ties for tree in trees)
    why = _("two on a stake that stays, one on a short one; soft, broad and easily loosened")
    return Need("tie", _("tie"), trees, ties, why, _(PRACTICE))


def _guards(study: Study, trees: Trees) -> list[Need]:
    found = []
    for called, guarded in _grouped(trees, lambda tree: guard(study, tree).called).items():
        guards = [guard(study, tree) for tree in guarded]
        why = "; ".join(dict.fromkeys(one.why for one in guards))
        animal, source = guards[0].animal, guards[0].source
        found.append(Need("guard", called, guarded, len(guarded), why, source, (animal,)))
    return found


def _mulch(trees: Trees) -> Need:
    low, high = (round(len(trees) * CIRCLE * depth, 2) for depth in MULCH_DEPTHS)
    why = _(
        "{circle:g} m2 round each tree, 7.5 to 10 cm deep ({low:g} to {high:g} m3), kept a hand's "
        "breadth off the stem"
    ).format(circle=CIRCLE, low=low, high=high)
    return Need("mulch", _("mulch"), trees, high, why, _(PRACTICE))
