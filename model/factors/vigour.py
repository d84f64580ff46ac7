"""Vigour: does the tree grow to the size that is wanted?"""

import numpy as np
import param

from model.decision.desirability import Curve
from model.factors.factor import Factor, Settings
from model.ground import Ground
from model.trees import HIGH, LOW, TYPICAL, Traits, full_size


class VigourSettings(Settings):
    """The curve over the full-grown height: the size that is wanted."""

    curve = param.ClassSelector(
        class_=Curve, default=Curve((1.0, 2.0, 4.5, 7.0, 12.0), (0.3, 1.0, 1.0, 0.4, 0.05))
    )


def _measure(ground: Ground, traits: Traits) -> np.ndarray:
    return full_size(traits, ground.soils.fertility).height[TYPICAL]


def _explain(ground: Ground, traits: Traits, option: int, place: int) -> str:
    size = full_size(traits, ground.soils.fertility[[place]])
    height, spread = size.height[:, option, 0], size.spread[:, option, 0]
    soil = {-1.0: "poor", 0.0: "ordinary", 1.0: "rich"}[float(ground.soils.fertility[place])]
    return (
        f"Full grown about {height[TYPICAL]:.1f} m high ({height[LOW]:.1f} to {height[HIGH]:.1f}) "
        f"and {spread[TYPICAL]:.1f} m across ({spread[LOW]:.1f} to {spread[HIGH]:.1f}) "
        f"on the {soil} soil here."
    )


VIGOUR = Factor(
    name="vigour",
    label="Vigour",
    question="Does it grow to the size you want?",
    group="room",
    quantity="height",
    unit="m high",
    decimals=1,
    needs=(),
    settings=VigourSettings,
    measure=_measure,
    explain=_explain,
    sources=(
        "Rootstock sizes, cultivar vigour and soil response: the catalogue, value by value.",
        "Size wanted: yours; the default suits a short ladder (common practice, no source).",
    ),
)
