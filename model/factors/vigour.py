"""Vigour: does the tree grow to the size that is wanted?"""

import numpy as np
import param

from model.decision.desirability import Curve
from model.factors.factor import Factor, Settings
from model.ground import Ground
from model.language import _, marked
from model.trees import HIGH, LOW, TYPICAL, Traits, full_size

SOILS = {-1.0: marked("poor"), 0.0: marked("ordinary"), 1.0: marked("rich")}


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
    soil = SOILS[float(ground.soils.fertility[place])]
    return _(
        "Full grown about {height:.1f} m high ({low:.1f} to {high:.1f}) and {across:.1f} m across "
        "({narrow:.1f} to {wide:.1f}) on the {soil} soil here."
    ).format(
        height=height[TYPICAL],
        low=height[LOW],
        high=height[HIGH],
        across=spread[TYPICAL],
        narrow=spread[LOW],
        wide=spread[HIGH],
        soil=_(soil),
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
