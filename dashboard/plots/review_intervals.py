"""One thing watched as a picture: what the map said, what was seen, what is now believed.

Three bars on one axis in the unit; a bar holds 19 times in 20, the mark is the figure itself.
"""

import math
from dataclasses import dataclass

from model.language import _
from model.planting.year_after.evidence import Evidence
from model.planting.year_after.observations import KINDS
from model.planting.year_after.watched import WATCHED

DEVIATIONS = 2.0
ROOM = 0.08  # of the axis at either end
PERCENT = 100.0
SAID = {"pH": "", "h/day": "h", "days/yr": "days"}  # units as they are said beside a bar
WHOLE = ("leader_growth", "soil_depth", "wet_days", "drought_stress")


@dataclass(frozen=True)
class Bar:
    """One bar: its label, figure and half width in the unit; no width where it is not known."""

    label: str
    value: float
    half: float


def picture(one: Evidence) -> dict[str, object] | None:
    """The picture as plain values, lengths in percent of the axis; None where there is none."""
    if math.isnan(one.prior.mean):
        return None
    times, unit, low, high = _scale(one)
    bars = [
        Bar(_("The map said"), times * one.prior.mean, times * DEVIATIONS * one.prior.sd),
        Bar(_("Was seen"), times * one.seen, times * DEVIATIONS * one.seen_sd),
        Bar(_("Now believed"), times * one.mean, times * DEVIATIONS * one.sd),
    ]
    if one.what == "leader_growth":
        bars.pop()  # a sign; one season tells nothing of the next
    ends = [_ends(bar, low, high) for bar in bars]
    first, last = min(a for a, _b in ends), max(b for _a, b in ends)
    room = ROOM * (last - first) or 1.0
    first, last = max(first - room, low), min(last + room, high)

    def at(value: float) -> float:
        return round(PERCENT * (value - first) / (last - first), 2)

    told = [figure(bar.value, bar.half, unit, one.what) for bar in bars]
    rows = [
        {"label": bar.label, "from": at(a), "to": at(b), "at": at(bar.value), "told": said}
        for bar, (a, b), said in zip(bars, ends, told, strict=True)
    ]
    said = "; ".join(f"{bar.label.lower()} {words}" for bar, words in zip(bars, told, strict=True))
    label = thing(one)
    return {
        "label": label,
        "said": f"{label}: {said}. {one.words}.",
        "low": f"{_number(first, one.what)} {unit}".strip(),
        "high": f"{_number(last, one.what)} {unit}".strip(),
        "rows": rows,
    }


def figure(value: float, half: float, unit: str, what: str) -> str:
    """A figure with its unit and how far it may be off."""
    off = "" if math.isnan(half) or half == 0 else f" ± {_number(half, what)}"
    return f"{_number(value, what)}{off} {unit}".strip()


def thing(one: Evidence) -> str:
    """What was watched, in words that begin a line."""
    label = _(WATCHED[one.what].label if one.what in WATCHED else KINDS[one.what].label)
    return label[:1].upper() + label[1:]


def _scale(one: Evidence) -> tuple[float, str, float, float]:
    """By how much figures are multiplied, their unit then, and the limits of what can be."""
    kind = KINDS[one.what]
    if one.prior.years:
        return PERCENT, _("of 100 years"), 0.0, PERCENT
    unit = _(SAID.get(kind.unit, kind.unit))
    return 1.0, unit, kind.low, kind.high


def _ends(bar: Bar, low: float, high: float) -> tuple[float, float]:
    half = 0.0 if math.isnan(bar.half) else bar.half
    return max(bar.value - half, low), min(bar.value + half, high)


def _number(value: float, what: str) -> str:
    digits = 0 if what in WHOLE or what in ("browsed", "blossom_frost") else 1
    return f"{value:.{digits}f}"
