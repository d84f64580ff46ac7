"""The ballot as a form: sliders from 0 to 100, and what they come to as weights."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from dashboard.join.judge import Judge
from model.group.ballot import Ballot, BallotFaults
from model.language import _

MIDDLE = 50.0  # where every family begins, so that no family is put first
TALLEST = 60.0  # the factor of a family that usually counts most begins here: it can go up still
TRADE_OFFS = (
    (1.0, "Its strengths make up for it."),
    (0.0, "It is held against the tree a little."),
    (-1.0, "It is held against the tree."),
    (-3.0, "It weighs heavily."),
    (-10.0, "The weak point decides."),
)
Fields = Mapping[str, Sequence[str]]


@dataclass(frozen=True)
class Filled:
    """What stands in the form: 0 to 100 by family and by factor."""

    group: str
    families: Mapping[str, float]
    factors: Mapping[str, float]
    trade_off: float
    options: tuple[str, ...] = ()


def blank(judge: Judge, group: str) -> Filled:
    """The form before anything is moved."""
    factors: dict[str, float] = {}
    for family in judge.families:
        members = judge.members(family)
        usual = {one.name: one.usual for one in members}
        factors |= _scaled(usual) if any(usual.values()) else dict.fromkeys(usual, TALLEST)
    families = dict.fromkeys(judge.families, MIDDLE)
    return Filled(group, families, factors, nearest_trade_off(judge.trade_off))


def filled(judge: Judge, ballot: Ballot) -> Filled:
    """The form as a ballot left it; a family without weight keeps its usual proportions."""
    start = blank(judge, ballot.group)
    families: dict[str, float] = {}
    factors = dict(start.factors)
    for family in judge.families:
        own = {one.name: ballot.weights.get(one.name, 0.0) for one in judge.members(family)}
        families[family] = sum(own.values())
        if any(own.values()):
            factors |= _scaled(own)
    top = max(families.values())
    families = {name: min(100.0, 100 * value / max(top, 100)) for name, value in families.items()}
    trade_off = nearest_trade_off(ballot.trade_off)
    return Filled(ballot.group, families, factors, trade_off, ballot.options)


def ballot_of(judge: Judge, fields: Fields, group: str, round: int) -> Ballot:  # noqa: A002 - the word people use
    """The ballot that a form asks for; BallotFaults with a sentence for each fault."""
    start = blank(judge, group)
    weights: dict[str, float] = {}
    for family in judge.families:
        names = [one.name for one in judge.members(family)]
        height = _height(fields, f"family-{family}", MIDDLE)
        own = {name: _height(fields, f"factor-{name}", start.factors[name]) for name in names}
        total = sum(own.values())
        weights |= {name: height * value / total if total else 0.0 for name, value in own.items()}
    wanted = tuple(label for label in judge.options if label in fields.get("option", ()))
    options = () if len(wanted) == len(judge.options) else wanted
    return Ballot(group, weights, _number(fields, "trade_off", start.trade_off), options, round)


def nearest_trade_off(exponent: float) -> float:
    """The choice in words that an exponent is nearest to."""
    return min((one for one, _words in TRADE_OFFS), key=lambda one: abs(one - exponent))


def _scaled(values: Mapping[str, float]) -> dict[str, float]:
    tallest = max(values.values())
    return {name: round(TALLEST * value / tallest, 1) for name, value in values.items()}


def _height(fields: Fields, name: str, usual: float) -> float:
    return min(max(_number(fields, name, usual), 0.0), 100.0)


def _number(fields: Fields, name: str, usual: float) -> float:
    text = (fields.get(name) or [""])[0]
    if not text:
        return usual
    try:
        number = float(text)
    except ValueError:
        number = math.nan
    if not math.isfinite(number):
        fault = _("The field {name}: found {text}, expected a number.")
        raise BallotFaults((fault.format(name=name, text=repr(text[:20])),))
    return number
