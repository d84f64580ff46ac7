"""Own shade: how much sun would the grown tree take from beds, panels and windows?"""

import numpy as np
import param

from model.decision.desirability import Curve
from model.factors.factor import Factor, Settings
from model.ground import Ground, given
from model.ground.sun import CLEAR_STEM
from model.land.covers import Crown
from model.land.own_shade import sun_taken
from model.language import _
from model.trees import TYPICAL, Traits, full_size

KEPT = 0.7  # share of the beam that a fruit tree in leaf keeps back (common practice, no source)


class ShadeSettings(Settings):
    """The curve over the sun taken."""

    curve = param.ClassSelector(
        class_=Curve, default=Curve((0.0, 0.5, 1.5, 3.0), (1.0, 0.8, 0.35, 0.05))
    )


def _taken(ground: Ground, traits: Traits, option: int, place: slice | list[int]) -> np.ndarray:
    """Sun a day that an option takes from each valued place (wanted, place) [h]."""
    wanted = given(ground.sun_wanted)
    places = ground.places
    trees = np.column_stack([places.x, places.y, ground.altitude])[place]
    soil = ground.soils.fertility[place]
    taken = np.zeros((len(wanted), len(trees)))
    for fertility in np.unique(soil):
        here = soil == fertility
        size = full_size(traits, [fertility])
        height, spread = size.height[TYPICAL, option, 0], size.spread[TYPICAL, option, 0]
        crown = Crown(0.0, 0.0, spread / 2, CLEAR_STEM * height, height)
        for number, sunny in enumerate(wanted):
            for sky, sun in sunny.summer:
                taken[number, here] += sun_taken(crown, trees[here], sunny.eye, sky, KEPT * sun)
    return taken


def _measure(ground: Ground, traits: Traits) -> np.ndarray:
    options = range(len(traits.options))
    return np.stack([_taken(ground, traits, o, slice(None)).max(axis=0) for o in options])


def _explain(ground: Ground, traits: Traits, option: int, place: int) -> str:
    taken = _taken(ground, traits, option, [place])[:, 0]
    most = int(taken.argmax())
    if taken[most] < 0.05:
        return _("Full grown it takes 0.0 h of sun a day from any place that wants its sun.")
    return _(
        "Full grown it takes {hours:.1f} h of direct sun a day in the growing season from {place}."
    ).format(hours=taken[most], place=given(ground.sun_wanted)[most].label)


OWN_SHADE = Factor(
    name="own_shade",
    label="Own shade",
    question="Would it take the sun from beds, panels or windows?",
    group="people",
    quantity="sun_taken",
    unit="h a day taken",
    decimals=1,
    needs=("sun_wanted",),
    settings=ShadeSettings,
    measure=_measure,
    explain=_explain,
    sources=(
        "Geometry of sun and crown: Meeus (1998); crowns as domes, a model choice.",
        "Light through a fruit tree in leaf, 30 %: common practice, no source.",
    ),
)
