"""Lime and sulphur: what each tree's ground needs before it is planted."""

from dataclasses import dataclass

from model.factors.soil_acidity import HOLE, NEAR_ENOUGH, TOO_LIMY
from model.ground.soil import TEXTURES
from model.land import acidity
from model.language import _
from model.planting.placement import Planted
from model.study import Study

LIME_SOURCE = "AHDB Nutrient Management Guide (RB209), lime factors"
SULPHUR_SOURCE = "Royal Horticultural Society, Acidifying soil"


@dataclass(frozen=True)
class Mending:
    """What one tree's ground needs: lime, sulphur or nothing that helps.

    `item` is lime, sulphur or an empty word, `amount` [kg] for the round hole of one metre.
    """

    item: str
    amount: float
    why: str
    source: str


def mending(study: Study, tree: Planted) -> Mending | None:
    """The mending of one tree's ground; None where its acidity suits the tree well enough."""
    soils, traits = study.ground.soils, study.traits
    found = float(soils.ph[tree.place])
    low, high = float(traits.ph_low[tree.option]), float(traits.ph_high[tree.option])
    distance = float(acidity.acidity_distance(found, low, high))
    if not (distance < 0 or distance > NEAR_ENOUGH):
        return None
    texture = TEXTURES[soils.texture[tree.place]]
    said = _("pH {ph:.1f} on {texture}, it likes {low:.1f} to {high:.1f} best")
    if distance > TOO_LIMY:
        said = _(
            "pH {ph:.1f} on {texture}, it likes {low:.1f} to {high:.1f} best: too limy to mend, "
            "choose another fruit"
        )
    why = said.format(ph=found, texture=_(texture), low=low, high=high)
    if distance < 0:
        amount = float(acidity.for_hole(acidity.lime_need(distance, texture), HOLE))
        return Mending("lime", amount, why, LIME_SOURCE)
    if distance > TOO_LIMY:
        return Mending("", 0.0, why, SULPHUR_SOURCE)
    amount = float(acidity.for_hole(acidity.sulphur_need(distance, texture), HOLE))
    return Mending("sulphur", amount, why, SULPHUR_SOURCE)
