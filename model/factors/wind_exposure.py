"""Wind exposure: how much of the open wind does the place get?"""

import numpy as np
import param

from model.decision.desirability import Curve
from model.factors.factor import Factor, Settings
from model.ground import Ground, given
from model.language import _
from model.trees import Traits

MIDDLING = 3.0  # the class of a tree of which nothing is known
STEP = 0.15  # a class above or below the middle counts as this much more or less wind


class WindSettings(Settings):
    """The curve over the wind that the tree feels."""

    curve = param.ClassSelector(
        class_=Curve, default=Curve((30.0, 60.0, 90.0, 130.0), (1.0, 0.85, 0.5, 0.15))
    )


def felt_wind(left: np.ndarray, suffers: np.ndarray) -> np.ndarray:
    """Wind as the tree suffers it (option, place) [%].

    `left` (place,) [1] share of open wind; `suffers` (option,) class 1 to 5: a class above the
    middle counts as 15 % more wind. Source: model choice (common practice, no source).
    """
    return 100 * left * (1 + STEP * (suffers[:, None] - MIDDLING))


def _measure(ground: Ground, traits: Traits) -> np.ndarray:
    return felt_wind(given(ground.wind), np.nan_to_num(traits.wind, nan=MIDDLING))


def _explain(ground: Ground, traits: Traits, option: int, place: int) -> str:
    left = 100 * given(ground.wind)[place]
    suffers = np.nan_to_num(traits.wind[option], nan=MIDDLING)
    said = _("this fruit suffers from it no more and no less than most")
    if suffers > MIDDLING:
        said = _("this fruit suffers from it more than most")
    if suffers < MIDDLING:
        said = _("this fruit suffers from it less than most")
    return _(
        "{share:.0f} % of the open wind is left here, over the year's wind rose; {tree}."
    ).format(share=left, tree=said)


WIND_EXPOSURE = Factor(
    name="wind_exposure",
    label="Wind exposure",
    question="How much of the open wind does it get?",
    group="place",
    quantity="wind_felt",
    unit="% of open wind",
    decimals=0,
    needs=("wind",),
    settings=WindSettings,
    measure=_measure,
    explain=_explain,
    sources=(
        "Shelter over distance in heights: Brandle & Finch (1991), from memory.",
        "How much each fruit suffers: the catalogue, value by value.",
    ),
)
