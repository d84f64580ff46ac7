"""Own shade: how much sun would the grown tree take from beds, panels and windows?"""

import numpy as np
import param

from model.decision.desirability import Curve
from model.factors.factor import Factor, Settings
from model.ground import Ground, given
from model.ground.sun import CLEAR_STEM, DAYS_IN_MONTH, Sun, SunnyPlace
from model.land.covers import Crown
from model.land.own_shade import sun_taken
from model.land.shade import views
from model.land.sun_patches import summer_months, sun_hours
from model.trees import Traits, full_size

TYPICAL = 1
THROUGH = 0.3  # share of the beam a fruit tree in leaf lets through (common practice, no source)


class ShadeSettings(Settings):
    """The curve over the sun taken."""

    curve = param.ClassSelector(
        class_=Curve, default=Curve((0.0, 0.5, 1.5, 3.0), (1.0, 0.8, 0.35, 0.05))
    )


def _taken(ground: Ground, traits: Traits) -> np.ndarray:
    """Sun a day that each option takes from each valued place (wanted, option, place) [h]."""
    sun = given(ground.shaded)
    trees = np.column_stack([ground.places.x, ground.places.y, ground.altitude])
    taken = np.zeros((len(sun.wanted), len(traits.options), len(trees)))
    for fertility in np.unique(ground.soils.fertility):
        here = ground.soils.fertility == fertility
        size = full_size(traits, [fertility])
        for number, wanted in enumerate(sun.wanted):
            for option in range(len(traits.options)):
                crown = _crown(size.height[TYPICAL, option, 0], size.spread[TYPICAL, option, 0])
                taken[number, option, here] = _from(wanted, crown, trees[here], sun, ground)
    return taken


def _crown(height: float, spread: float) -> Crown:
    return Crown(0.0, 0.0, spread / 2, CLEAR_STEM * height, height)


def _from(
    wanted: SunnyPlace, crown: Crown, trees: np.ndarray, sun: Sun, ground: Ground
) -> np.ndarray:
    """Sun a day that one crown takes from one valued place, by where it stands (place,) [h]."""
    months = summer_months(ground.latitude)
    total = np.zeros(len(trees))
    for _, patches, view in views(wanted.eye[None], sun.standing, ground.latitude, months):
        worth = (1 - THROUGH) * sun_hours(patches).sum(axis=0) * view[0]
        total += sun_taken(crown, trees, wanted.eye, patches.sky, worth)
    return total / DAYS_IN_MONTH[list(months)].sum()


def _measure(ground: Ground, traits: Traits) -> np.ndarray:
    return _taken(ground, traits).max(axis=0)


def _explain(ground: Ground, traits: Traits, option: int, place: int) -> str:
    sun = given(ground.shaded)
    taken = _taken(ground, traits)[:, option, place]
    most = int(taken.argmax())
    if taken[most] < 0.05:
        return "Full grown it takes 0.0 h of sun a day from any place that wants its sun."
    return (
        f"Full grown it takes {taken[most]:.1f} h of direct sun a day from {sun.wanted[most].label} "
        "in the growing season."
    )


OWN_SHADE = Factor(
    name="own_shade",
    label="Own shade",
    question="Would it take the sun from beds, panels or windows?",
    group="people",
    quantity="sun_taken",
    unit="h a day taken",
    decimals=1,
    needs=("shaded",),
    settings=ShadeSettings,
    measure=_measure,
    explain=_explain,
    sources=(
        "Geometry of sun and crown: Meeus (1998); crowns as domes, a model choice.",
        "Light through a fruit tree in leaf, 30 %: common practice, no source.",
    ),
)
