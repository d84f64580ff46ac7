"""Hose, cans and tank for a plan: what reaches every tree, what a dry week of them drinks."""

import math
from collections.abc import Sequence

from model.language import _, marked
from model.planting.buying.need import Need
from model.planting.effort.bringing_water import (
    HOT_WEEK,
    LONGEST_HOSE,
    SLACK,
    USUAL_SOURCE,
    Thirst,
    thirst,
)
from model.planting.placement import Planted
from model.study import Study

CARRIED = 100.0  # [l] a week that is carried in cans rather than stored (common practice)
HOSE_STEP, TANK_STEP = 5, 50  # [m], [l] to which is rounded up
RECKONED = marked("water balance of FAO Irrigation Paper 56 on this site's weather and soil")
Thirsty = tuple[Planted, Thirst]


def water_needs(study: Study, trees: Sequence[Planted]) -> list[Need]:
    """A hose from each tap, cans for what it does not reach, a tank where cans would not do."""
    if study.ground.watering is None:
        return [_unreckoned(study, trees)]
    found = [(tree, drinks) for tree in trees if (drinks := thirst(study, tree)) is not None]
    by_hose = [one for one in found if one[1].by_hose]
    in_cans = [one for one in found if not one[1].by_hose]
    needs = [_hose(source, of_source) for source, of_source in _by_source(by_hose).items()]
    if in_cans:
        needs.append(_cans(in_cans))
    for source, of_source in _by_source(in_cans).items():
        needs += _stored(source, of_source)
    return needs


def _by_source(found: Sequence[Thirsty]) -> dict[str, list[Thirsty]]:
    groups: dict[str, list[Thirsty]] = {}
    for tree, drinks in found:
        groups.setdefault(drinks.source, []).append((tree, drinks))
    return groups


def _hose(source: str, found: Sequence[Thirsty]) -> Need:
    tree, farthest = max(found, key=lambda one: one[1].away)
    metres = _up(SLACK * farthest.away, HOSE_STEP)
    why = _(
        "from {source} to {place}, {away:.0f} m in a straight line, and a tenth more; walls and "
        "gates may ask for more"
    ).format(source=source, place=tree.name, away=farthest.away)
    slack = _("slack: common practice, no source")
    return Need("hose", _("hose"), _trees(found), metres, why, slack)


def _cans(found: Sequence[Thirsty]) -> Need:
    why = _(
        "no hose of up to {longest:g} m from a tap reaches them: {week:.0f} l together in the "
        "busiest week of a dry summer"
    ).format(longest=LONGEST_HOSE, week=_week(found))
    return Need("can", _("can, 10 l"), _trees(found), 2, why, _(RECKONED))


def _stored(source: str, found: Sequence[Thirsty]) -> list[Need]:
    """A tank near trees that no hose reaches, or beside a tank that holds less than they drink."""
    holds = found[0][1].holds
    week = _week(found)
    if math.isinf(holds) and week > CARRIED:
        why = _(
            "no hose from {source} reaches them, and {week:.0f} l a week are much to carry: a dry "
            "summer's busiest week stored near them, in several where they stand apart"
        )
        return [_tank(found, week, why.format(source=source, week=week))]
    if week > holds:
        why = _(
            "{source} holds {holds:.0f} l, less than the {week:.0f} l of their busiest dry week"
        )
        return [_tank(found, week - holds, why.format(source=source, holds=holds, week=week))]
    return []


def _tank(found: Sequence[Thirsty], litres: float, why: str) -> Need:
    return Need("tank", _sized(litres), _trees(found), 1, why, _(RECKONED), _sizes(litres))


def _sized(litres: float) -> str:
    """A tank as it is asked for."""
    return _("tank, {litres} l").format(litres=_up(litres, TANK_STEP))


def _unreckoned(study: Study, trees: Sequence[Planted]) -> Need:
    """A tank by a rule of thumb, where the survey gives no grounds for more."""
    litres = HOT_WEEK * len(trees)
    unknown = _("The survey does not say where water is.")
    missing = study.ground.absent.get("watering", unknown)
    usual = _("{litres:g} l a tree in a hot week; a tap and a hose do as well")
    why = f"{missing} {usual.format(litres=HOT_WEEK)}"
    return Need("tank", _sized(litres), trees, 1, why, USUAL_SOURCE, _sizes(litres))


def _sizes(litres: float) -> tuple[str, ...]:
    """How a tank of that size is called in prices.csv."""
    return (f"{_up(litres, TANK_STEP)} l",)


def _trees(found: Sequence[Thirsty]) -> list[Planted]:
    return [tree for tree, _drinks in found]


def _week(found: Sequence[Thirsty]) -> float:
    return sum(drinks.week for _, drinks in found)


def _up(amount: float, step: int) -> int:
    return math.ceil(amount / step - 1e-9) * step
