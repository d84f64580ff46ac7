"""Soil acidity: how far is the soil from what the tree wants, and what would mend it?"""

import numpy as np
import param

from model.decision.desirability import Curve
from model.factors.factor import Factor, Settings
from model.ground import Ground
from model.ground.soil import TEXTURES
from model.land import acidity
from model.language import _
from model.trees import Traits

NEAR_ENOUGH, TOO_LIMY = 0.5, 1.5  # [pH] above the range (common practice, no source)
HOLE = 1.0  # [m] across, the ground that is limed for one tree (common practice, no source)


class AciditySettings(Settings):
    """The curve over the distance from the range that the tree likes best."""

    curve = param.ClassSelector(
        class_=Curve, default=Curve((0.0, 0.5, 1.0, 2.0), (1.0, 0.8, 0.45, 0.05))
    )


def _distance(ground: Ground, traits: Traits) -> np.ndarray:
    """Signed distance from the best range (option, place) [pH]; below 0 too acid."""
    low = np.nan_to_num(traits.ph_low, nan=3.0)[:, None]
    high = np.nan_to_num(traits.ph_high, nan=10.0)[:, None]
    return acidity.acidity_distance(ground.soils.ph, low, high)


def _measure(ground: Ground, traits: Traits) -> np.ndarray:
    return np.abs(_distance(ground, traits))


def _explain(ground: Ground, traits: Traits, option: int, place: int) -> str:
    low, high = traits.ph_low[option], traits.ph_high[option]
    ph = ground.soils.ph[place]
    distance = float(acidity.acidity_distance(ph, low, high))
    return _("pH {ph:.1f} here; it likes {low:.1f} to {high:.1f} best: {mending}.").format(
        ph=ph, low=low, high=high, mending=_mending(distance, TEXTURES[ground.soils.texture[place]])
    )


def _mending(distance: float, texture: str) -> str:
    """What would mend a soil so far [pH] from the best range; below 0 too acid."""
    if distance < 0:
        lime = float(acidity.lime_need(distance, texture))
        return _(
            "about {dose:.1f} kg of ground limestone to the square metre ({hole:.1f} kg for a hole "
            "{across:.0f} m across), dug in before planting; test the soil first"
        ).format(dose=lime, hole=float(acidity.for_hole(lime, HOLE)), across=HOLE)
    if 0 < distance <= NEAR_ENOUGH:
        return _("a little limy for it, nothing to mend")
    if distance > TOO_LIMY:
        return _("too limy to mend; another fruit is the better choice")
    if distance > 0:
        return _(
            "about {dose:.0f} g of sulphur to the square metre; where vinegar fizzes on the soil "
            "no dose holds, and another fruit is the better choice"
        ).format(dose=1000 * float(acidity.sulphur_need(distance, texture)))
    return _("nothing to mend")


SOIL_ACIDITY = Factor(
    name="soil_acidity",
    label="Soil acidity",
    question="Is the soil as acid as it likes, or would it need lime or sulphur?",
    group="ground",
    quantity="acidity_gap",
    unit="pH away",
    decimals=1,
    needs=(),
    settings=AciditySettings,
    measure=_measure,
    explain=_explain,
    sources=(
        "Best range of each fruit: the catalogue, value by value (Ecocrop and others).",
        "Lime: AHDB Nutrient Management Guide (RB209). Sulphur: Royal Horticultural Society.",
    ),
)
