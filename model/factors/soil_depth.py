"""Soil depth: can the roots go as deep as the tree needs?"""

import numpy as np
import param

from model.decision.desirability import Curve
from model.factors.factor import Factor, Settings
from model.ground import Ground
from model.language import _
from model.trees import Traits


class DepthSettings(Settings):
    """The curve over the depth beyond the least that the tree needs."""

    curve = param.ClassSelector(
        class_=Curve, default=Curve((-20.0, 0.0, 30.0, 60.0), (0.05, 0.4, 0.85, 1.0))
    )


def _measure(ground: Ground, traits: Traits) -> np.ndarray:
    return ground.soils.depth - np.nan_to_num(traits.soil_depth_min)[:, None]


def _explain(ground: Ground, traits: Traits, option: int, place: int) -> str:
    depth, least = ground.soils.depth[place], traits.soil_depth_min[option]
    if np.isnan(least):
        return _(
            "Roots find {depth:.0f} cm of soil here; no least depth is known for this tree."
        ).format(depth=depth)
    said = _(
        "Roots find {depth:.0f} cm of soil here; it needs {least:.0f} cm at least: {off:.0f} cm "
        "too little."
    )
    if depth >= least:
        said = _(
            "Roots find {depth:.0f} cm of soil here; it needs {least:.0f} cm at least: {off:.0f} "
            "cm to spare."
        )
    return said.format(depth=depth, least=least, off=abs(depth - least))


SOIL_DEPTH = Factor(
    name="soil_depth",
    label="Soil depth",
    question="Can its roots go as deep as it needs?",
    group="ground",
    quantity="depth_to_spare",
    unit="cm to spare",
    decimals=0,
    needs=(),
    settings=DepthSettings,
    measure=_measure,
    explain=_explain,
    sources=(
        "Depth of the soil: as surveyed, by patch.",
        "Least depth that a tree needs: the catalogue, value by value.",
    ),
)
