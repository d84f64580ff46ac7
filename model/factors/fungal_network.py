"""Fungal network: do established plants here share the tree's kind of mycorrhiza?"""

import numpy as np
import param

from model.decision.desirability import Curve
from model.factors.factor import Factor, Settings
from model.ground import Ground
from model.ground.fungi import TYPES
from model.language import _, marked
from model.trees import Traits

KINDS = {"AM": marked("arbuscular"), "EcM": marked("ectomycorrhizal")}


class FungalSettings(Settings):
    """The curve over the link."""

    curve = param.ClassSelector(class_=Curve, default=Curve((0.0, 0.5, 1.0), (0.5, 0.85, 1.0)))


def _type(traits: Traits) -> np.ndarray:
    """Number in `TYPES` of each option's kind of mycorrhiza (option,)."""
    return np.array([TYPES.index("EcM") if "EcM" in kind else 0 for kind in traits.mycorrhiza])


def _measure(ground: Ground, traits: Traits) -> np.ndarray:
    return ground.fungi[_type(traits)]


def _explain(ground: Ground, traits: Traits, option: int, place: int) -> str:
    kind = int(_type(traits)[option])
    return _(
        "Link to established {kind} hosts {link:.2f} of 1. Whether shared networks help a young "
        "tree is disputed: field results differ and are few, so this weighs next to nothing unless "
        "you say otherwise."
    ).format(kind=_(KINDS[TYPES[kind]]), link=ground.fungi[kind, place])


FUNGAL_NETWORK = Factor(
    name="fungal_network",
    label="Fungal network",
    question="Do plants here already share its kind of root fungi?",
    group="ground",
    quantity="fungal_link",
    unit="of 1",
    decimals=2,
    needs=(),
    settings=FungalSettings,
    measure=_measure,
    explain=_explain,
    usual_weight=0.1,
    sources=(
        "Kinds of mycorrhiza by genus: the catalogue, value by value.",
        "Evidence is thin: Karst, Jones & Hoeksema (2023), Nature Ecology & Evolution 7:501.",
        "Fall of the link with distance: model choice (common practice, no source).",
    ),
)
