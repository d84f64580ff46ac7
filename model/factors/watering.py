"""Watering: what must be brought in the first two summers, and how long does that take?"""

import numpy as np
import param

from model.decision.desirability import Curve
from model.factors.factor import Factor, Settings
from model.ground import Ground, given
from model.trees import Traits

DRY = 1  # a dry year, one in ten, against 0 for a median one
HOUR = 3600.0
FILLING = 60.0  # [s] to fill the cans and pour them out (common practice, no source)
HOSE_FLOW = 10.0 / 60.0  # [l/s] through a garden hose (common practice, no source)
WHAT_FLOWS_DOWN = 1.0  # [m] head below which a hose from a tank hardly runs (common practice)


class WateringSettings(Settings):
    """The curve over the hours, and what one waters with."""

    curve = param.ClassSelector(
        class_=Curve, default=Curve((0.0, 1.0, 4.0, 10.0), (1.0, 0.85, 0.4, 0.05))
    )
    circle = param.Number(1.0, bounds=(0.3, 4.0), doc="Ground watered round a young tree [m2].")
    hose = param.Number(30.0, bounds=(0.0, 200.0), doc="Length of the hose [m].")
    cans = param.Number(20.0, bounds=(5.0, 60.0), doc="Water carried on one walk [l].")


def hours_of_watering(
    litres: np.ndarray, fetch: np.ndarray, by_hose: np.ndarray, cans: float
) -> np.ndarray:
    """Time to bring water to a tree (place,) [h].

    `litres` (place,); `fetch` (place,) [s] there and back; `by_hose` (place,) bool; `cans` [l] a
    walk. By hose it is the time that the water runs, by cans a walk for each load.
    """
    carried = np.ceil(litres / cans) * (fetch + FILLING)
    return np.where(by_hose, litres / HOSE_FLOW, carried) / HOUR


def _by_hose(ground: Ground, hose: float) -> np.ndarray:
    """Where a hose reaches and water runs (place,): from a tap, or down from a tank."""
    watering = given(ground.watering)
    from_tap = np.isinf(watering.capacity[watering.source])
    return (watering.hose <= hose) & (from_tap | (watering.head >= WHAT_FLOWS_DOWN))


def _measure(
    ground: Ground, traits: Traits, *, circle: float, hose: float, cans: float
) -> np.ndarray:
    watering = given(ground.watering)
    litres = circle * watering.lacking[:, DRY].sum(axis=0)
    return hours_of_watering(litres, watering.fetch, _by_hose(ground, hose), cans)[None]


def _explain(ground: Ground, traits: Traits, option: int, place: int, **figures: float) -> str:
    watering = given(ground.watering)
    hose, cans = figures["hose"], figures["cans"]
    first, second = figures["circle"] * watering.lacking[:, :, place]
    source = int(watering.source[place])
    label, capacity = watering.labels[source], watering.capacity[source]
    hours = _measure(ground, traits, **figures)[0, place]
    how = "by hose" if _by_hose(ground, hose)[place] else f"in cans of {cans:.0f} l together"
    most = max(first[DRY], second[DRY])
    tank = f"; {label} holds {capacity:.0f} l" if np.isfinite(capacity) and most > capacity else ""
    return (
        f"First summer {first[0]:.0f} l in a median year and {first[DRY]:.0f} l in a dry one, "
        f"second {second[0]:.0f} and {second[DRY]:.0f} l, from {label} {how}: "
        f"{hours:.1f} h in two dry summers{tank}."
    )


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
        "Walking: Tobler (1993). Cans, hose and circle: common practice, no source.",
    ),
)
