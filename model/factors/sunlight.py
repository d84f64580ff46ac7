"""Sunlight: how many hours of direct sun a day would the tree have while it grows?"""

import numpy as np
import param

from model.decision.desirability import Curve
from model.factors.factor import Factor, Settings
from model.ground import Ground
from model.land.sun_patches import summer_months, winter_months
from model.trees import Traits

COMMON_NEED = 6.0  # [h/day] of a tree whose need is not known


class SunSettings(Settings):
    """The curve over the sun beyond the least that the tree needs."""

    curve = param.ClassSelector(
        class_=Curve, default=Curve((-3.0, 0.0, 2.0, 5.0), (0.03, 0.4, 0.85, 1.0))
    )
    clear = param.Number(
        0.7,
        bounds=(0.2, 1.0),
        doc="Share of a cloudless day's sun that counts: clouds take some [1].",
    )


def _summer(ground: Ground) -> np.ndarray:
    """Direct sun a day in the growing season, no day cloudy (place,) [h]."""
    return ground.sun.a_day(ground.sun.hours, summer_months(ground.latitude))


def _measure(ground: Ground, traits: Traits, *, clear: float) -> np.ndarray:
    need = np.nan_to_num(traits.sun_need, nan=COMMON_NEED)
    return clear * _summer(ground) - need[:, None]


def _explain(ground: Ground, traits: Traits, option: int, place: int, *, clear: float) -> str:
    sun, north = ground.sun, ground.latitude
    hours = clear * _summer(ground)[place]
    winter = clear * sun.a_day(sun.hours, winter_months(north))[place]
    morning = clear * sun.a_day(sun.morning, summer_months(north))[place]
    need = np.nan_to_num(traits.sun_need[option], nan=COMMON_NEED)
    return (
        f"{hours:.1f} h of sun a day in the growing season of {need:.0f} needed at least, "
        f"{morning:.1f} h of it before ten; {winter:.1f} h a day in winter."
    )


SUNLIGHT = Factor(
    name="sunlight",
    label="Sunlight",
    question="Has it sun enough while it grows?",
    group="place",
    quantity="sun_to_spare",
    unit="h a day to spare",
    decimals=1,
    needs=(),
    settings=SunSettings,
    measure=_measure,
    explain=_explain,
    sources=(
        "Position of the sun: Meeus (1998), Astronomical Algorithms.",
        "Light that crowns let through and hours a fruit needs: the catalogue, value by value.",
        "Share left by clouds: yours; 0.7 is a model choice (common practice, no source).",
    ),
)
