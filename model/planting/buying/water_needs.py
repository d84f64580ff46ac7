"""Hose, cans and tank for a plan: what reaches every tree, what a dry week of them drinks."""

import math
from collections.abc import Sequence

from model.planting.buying.need import PRACTICE, Need
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
RECKONED = "water balance of FAO Irrigation Paper 56 on this site's weather and soil"
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
    why = (
        f"from {source} to {tree.name}, {farthest.away:.0f} m in a straight line, and a tenth "
        "more; walls and gates may ask for more"
    )
    return Need("hose", "hose", [tree for tree, _ in found], metres, why, f"slack: {PRACTICE}")


def _cans(found: Sequence[Thirsty]) -> Need:
    why = (
        f"no hose of up to {LONGEST_HOSE:g} m from a tap reaches them: {_week(found):.0f} l "
        "together in the busiest week of a dry summer"
    )
    return Need("can", "can, 10 l", [tree for tree, _ in found], 2, why, RECKONED)


def _stored(source: str, found: Sequence[Thirsty]) -> list[Need]:
    """A tank near trees that no hose reaches, or beside a tank that holds less than they drink."""
    holds = found[0][1].holds
    week = _week(found)
    if math.isinf(holds) and week > CARRIED:
        why = f"no hose from {source} reaches them, and {week:.0f} l a week are much to carry"
        stored = "a dry summer's busiest week stored near them, in several where they stand apart"
        return [_tank(found, week, f"{why}: {stored}")]
    if week > holds:
        why = f"{source} holds {holds:.0f} l, less than the {week:.0f} l of their busiest dry week"
        return [_tank(found, week - holds, why)]
    return []


def _tank(found: Sequence[Thirsty], litres: float, why: str) -> Need:
    item = f"tank, {_up(litres, TANK_STEP)} l"
    return Need("tank", item, [tree for tree, _ in found], 1, why, RECKONED, _sizes(litres))


def _unreckoned(study: Study, trees: Sequence[Planted]) -> Need:
    """A tank by a rule of thumb, where the survey gives no grounds for more."""
    litres = HOT_WEEK * len(trees)
    missing = study.ground.absent.get("watering", "The survey does not say where water is.")
    why = f"{missing} {HOT_WEEK:g} l a tree in a hot week; a tap and a hose do as well"
    item = f"tank, {_up(litres, TANK_STEP)} l"
    return Need("tank", item, trees, 1, why, USUAL_SOURCE, _sizes(litres))


def _sizes(litres: float) -> tuple[str, ...]:
    """How a tank of that size is called in prices.csv."""
    return (f"{_up(litres, TANK_STEP)} l",)


def _week(found: Sequence[Thirsty]) -> float:
    return sum(drinks.week for _, drinks in found)


def _up(amount: float, step: int) -> int:
    return math.ceil(amount / step - 1e-9) * step
