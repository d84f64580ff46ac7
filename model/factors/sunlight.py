"""Sunlight: how many hours of direct sun a day would the tree have while it grows?"""

import numpy as np
import param

from model.decision.desirability import Curve
from model.factors.factor import Factor, Settings
from model.ground import Ground
from model.ground.sun import Sun
from model.land.sun_patches import summer_months, winter_months
from model.language import _
from model.trees import Traits

COMMON_NEED = 6.0  # [h/day] of a tree whose need is not known


class SunSettings(Settings):
    """The curve over the sun beyond the least that the tree needs."""

    curve = param.ClassSelector(
        class_=Curve, default=Curve((-3.0, 0.0, 1.0, 3.0), (0.03, 0.4, 0.8, 1.0))
    )
    neighbours: param.Selector = param.Selector(
        default="full size",
        objects=["full size", "present size"],
        doc="Whether single trees throw shade at their full or their present size.",
    )


def _sun(ground: Ground, neighbours: str) -> Sun:
    return ground.sun if neighbours == "full size" else ground.sun_now


def _summer(ground: Ground, neighbours: str) -> np.ndarray:
    """Direct sun a day in the growing season, by its strength (place,) [h]."""
    sun = _sun(ground, neighbours)
    return sun.a_day(sun.strong, summer_months(ground.latitude))


def _measure(ground: Ground, traits: Traits, *, neighbours: str) -> np.ndarray:
    need = np.nan_to_num(traits.sun_need, nan=COMMON_NEED)
    return _summer(ground, neighbours) - need[:, None]


def _explain(ground: Ground, traits: Traits, option: int, place: int, *, neighbours: str) -> str:
    sun, north = _sun(ground, neighbours), ground.latitude
    summer, winter = summer_months(north), winter_months(north)
    need = np.nan_to_num(traits.sun_need[option], nan=COMMON_NEED)
    return _(
        "{good:.1f} h of good sun on a cloudless day of the growing season, of {need:.0f} needed "
        "at least (low sun counts by its strength). All sun together: {all:.1f} h, of which before "
        "ten {morning:.1f} h; in winter {winter:.1f} h."
    ).format(
        good=_summer(ground, neighbours)[place],
        need=need,
        all=sun.a_day(sun.hours, summer)[place],
        morning=sun.a_day(sun.morning, summer)[place],
        winter=sun.a_day(sun.hours, winter)[place],
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
        "Low sun counts by its strength, whole from 500 W/m2 on the level: model choice.",
    ),
)
