"""Watering: what must be brought in the first two summers, and how long does that take?"""

import numpy as np
import param

from model.decision.desirability import Curve
from model.factors.factor import Factor, Settings
from model.ground import Ground, given
from model.ground.watering import day_shown
from model.land.watering import carrying_time, hose_flow
from model.language import _
from model.trees import Traits

DRY = 1  # a dry year, one in ten, against 0 for a median one
HOUR = 3600.0
BAR = 10.2  # [m] of head
LEAST_FLOW = 2.0  # [l/min] below which one carries sooner than waits (common practice, no source)


class WateringSettings(Settings):
    """The curve over the hours, and what one waters with."""

    curve = param.ClassSelector(
        class_=Curve, default=Curve((0.0, 1.0, 4.0, 10.0), (1.0, 0.85, 0.4, 0.05))
    )
    circle = param.Number(1.0, bounds=(0.3, 4.0), doc="Ground watered round a young tree [m2].")
    hose = param.Number(30.0, bounds=(0.0, 200.0), doc="Length of the hose [m].")
    bore = param.Number(0.0125, bounds=(0.008, 0.05), doc="Inner width of the hose [m].")
    pressure = param.Number(1.5, bounds=(0.0, 8.0), doc="Pressure at a tap [bar].")


def _flow(ground: Ground, hose: float, bore: float, pressure: float) -> np.ndarray:
    """Water that a hose brings to every place (place,) [l/min]; 0 where it does not reach."""
    watering = given(ground.watering)
    from_tap = np.isinf(watering.capacity[watering.source])
    head = watering.head + np.where(from_tap, pressure * BAR, 0.0)
    flow = hose_flow(head, hose, bore)
    return np.where((watering.hose <= hose) & (flow >= LEAST_FLOW), flow, 0.0)


def _hours(ground: Ground, circle: float, flow: np.ndarray) -> np.ndarray:
    """Time to water a tree through two dry summers, by hose or cans, the quicker (place,) [h]."""
    watering = given(ground.watering)
    litres = circle * watering.lacking[:, DRY].sum(axis=0)
    carried = carrying_time(litres, watering.fetch / 2, watering.fetch / 2) / HOUR
    with np.errstate(divide="ignore", invalid="ignore"):
        by_hose = np.where(flow > 0, litres / flow / 60, np.inf)
    return np.fmin(by_hose, carried)


def _measure(
    ground: Ground, traits: Traits, *, circle: float, hose: float, bore: float, pressure: float
) -> np.ndarray:
    return _hours(ground, circle, _flow(ground, hose, bore, pressure))[None]


def _explain(ground: Ground, traits: Traits, option: int, place: int, **figures: float) -> str:
    watering = given(ground.watering)
    circle = figures["circle"]
    flow = _flow(ground, figures["hose"], figures["bore"], figures["pressure"])
    hours = _hours(ground, circle, flow)[place]
    first, second = circle * watering.lacking[:, :, place]
    carried = _hours(ground, circle, np.zeros_like(flow))[place]
    said = _(
        "First summer {median:.0f} l in a median year, {dry:.0f} l in a dry one; second "
        "{later_median:.0f} and {later_dry:.0f} l, in cans from {source}: {hours:.1f} h in two dry "
        "summers."
    )
    if hours < carried:
        said = _(
            "First summer {median:.0f} l in a median year, {dry:.0f} l in a dry one; second "
            "{later_median:.0f} and {later_dry:.0f} l, by hose from {source}: {hours:.1f} h in two "
            "dry summers."
        )
    litres = said.format(
        median=first[0],
        dry=first[DRY],
        later_median=second[0],
        later_dry=second[DRY],
        source=watering.labels[int(watering.source[place])],
        hours=hours,
    )
    return f"{litres} {_when(ground, circle, place)}"


def _when(ground: Ground, circle: float, place: int) -> str:
    """Dates of a dry summer's watering, the busiest week, and whether the tank holds it."""
    watering = given(ground.watering)
    week = circle * watering.week[place]
    said = _("In a dry one from {first} to {last}, at most {week:.0f} l a week.")
    if week > watering.capacity[int(watering.source[place])]:
        said = _(
            "In a dry one from {first} to {last}, at most {week:.0f} l a week, more than the tank "
            "holds."
        )
    first, last = (day_shown(str(day[place])) for day in (watering.first, watering.last))
    return said.format(first=first, last=last, week=week)


WATERING = Factor(
    name="watering",
    label="Watering",
    question="How long does it take to water it through its first two summers?",
    group="ground",
    quantity="watering_time",
    unit="h in two summers",
    decimals=1,
    needs=("watering",),
    settings=WateringSettings,
    measure=_measure,
    explain=_explain,
    sources=(
        "Water balance and crop coefficients: Allen et al. (1998), FAO Irrigation Paper 56.",
        "Water that soils hold: Saxton & Rawls (2006), Soil Sci. Soc. Am. J. 70:1569.",
        "Walking: Tobler (1993); hoses: Williams & Hazen (1905); the rest: common practice.",
    ),
)
