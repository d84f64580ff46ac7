"""Slope: how steep is the ground on which one prunes, picks and mows?"""

import numpy as np
import param

from model.decision.desirability import Curve
from model.factors.factor import Factor, RuleOut, Settings
from model.ground import Ground
from model.language import _
from model.trees import TYPICAL, Traits, full_size

FROM_THE_GROUND = (
    3.0  # [m] a tree no higher is worked without a ladder (common practice, no source)
)


class SlopeSettings(Settings):
    """The curve over the steepest working slope, and the steepest that bears a ladder."""

    curve = param.ClassSelector(
        class_=Curve, default=Curve((5.0, 10.0, 20.0, 35.0), (1.0, 0.85, 0.5, 0.05))
    )
    ladder = param.Number(
        29.0, bounds=(5.0, 60.0), doc="Slope beyond which no ladder is set up [%]."
    )


def _size(ground: Ground, traits: Traits) -> tuple[np.ndarray, np.ndarray]:
    """Typical height and crown radius (option, place) [m]."""
    size = full_size(traits, ground.soils.fertility)
    return size.height[TYPICAL], size.spread[TYPICAL] / 2


def _measure(ground: Ground, traits: Traits, *, ladder: float) -> np.ndarray:
    return 100 * ground.steepness.at(_size(ground, traits)[1])


def _rules_out(ground: Ground, traits: Traits, *, ladder: float) -> tuple[RuleOut, ...]:
    tall = _size(ground, traits)[0] > FROM_THE_GROUND
    steep = _measure(ground, traits, ladder=ladder) > ladder
    why = _("too steep for a ladder (over {limit:.0f} %) and too tall without one")
    return (RuleOut(why.format(limit=ladder), tall & steep),)


def _explain(ground: Ground, traits: Traits, option: int, place: int, *, ladder: float) -> str:
    height, radius = (part[option, place] for part in _size(ground, traits))
    steepest = 100 * ground.steepness.at_place(radius, place)
    said = _("Up to {slope:.0f} % under the crown of a tree that wants a ladder.")
    if height <= FROM_THE_GROUND:
        said = _("Up to {slope:.0f} % under the crown of a tree worked from the ground.")
    caution = _(
        "Ladders and ride-on mowers tip on slopes: follow their makers' limits and local safety "
        "rules."
    )
    return f"{said.format(slope=steepest)} {caution}"


SLOPE = Factor(
    name="slope",
    label="Slope",
    question="How steep is the ground one works on?",
    group="people",
    quantity="working_slope",
    unit="% slope",
    decimals=0,
    needs=(),
    settings=SlopeSettings,
    measure=_measure,
    rules_out=_rules_out,
    explain=_explain,
    sources=(
        "Slope of the ground: Horn (1981), Proc. IEEE 69:14.",
        "Orchards well suited up to 20 %, unsuited beyond 25 %: British Columbia soil guide.",
        "Ladders to 16 degrees (29 %) across: HSE LA455, from memory.",
    ),
)
