"""Views: how much of the valued views would the grown tree cover, or screen as wished?"""

import numpy as np
import param

from model.decision.desirability import Curve
from model.factors.factor import Factor, Settings
from model.ground import Ground, given
from model.ground.views import View
from model.land.sight import share_covered
from model.language import _, each
from model.trees import TYPICAL, Traits, full_size

SIGN = {"keep": 1.0, "screen": -1.0}


class ViewSettings(Settings):
    """The curve over the windows covered, less the screening gained."""

    curve = param.ClassSelector(
        class_=Curve, default=Curve((-20.0, 0.0, 5.0, 30.0), (1.0, 0.8, 0.5, 0.05))
    )


def view_loss(covered: np.ndarray, worth: np.ndarray) -> np.ndarray:
    """Windows lost, less screening gained, (option, place) [%].

    `covered` (view, option, place) [1] of each window; `worth` (view,) [1] is a view's importance,
    negative where screening is wished.
    """
    return 100 * np.tensordot(worth, covered, 1)


def _covered(view: View, ground: Ground, traits: Traits, place: slice | list[int]) -> np.ndarray:
    """Share of one window that each option would cover at places (option, place) [1]."""
    size = full_size(traits, ground.soils.fertility[place])
    at = ground.places.x[place], ground.places.y[place], given(ground.views).ground[place]
    return share_covered(view.window, view.skyline, at, size.height[TYPICAL], size.spread[TYPICAL])


def _measure(ground: Ground, traits: Traits) -> np.ndarray:
    views = given(ground.views).views
    covered = np.stack([_covered(view, ground, traits, slice(None)) for view in views])
    return view_loss(covered, np.array([SIGN[v.wish] * v.importance for v in views]))


def _explain(ground: Ground, traits: Traits, option: int, place: int) -> str:
    said = []
    for view in given(ground.views).views:
        share = 100 * _covered(view, ground, traits, [place])[option, 0]
        if share >= 0.5:
            part = _("screen, as wished, {share:.0f} % of {view}")
            if view.wish == "keep":
                part = _("cover {share:.0f} % of {view}")
            said.append(part.format(share=share, view=view.label))
    if not said:
        return _("Full grown it would stand in none of the valued views.")
    return _("Full grown it would {parts}.").format(parts=each(said))


VIEWS = Factor(
    name="views",
    label="Views",
    question="Does it stand in a view you value, or hide what you would rather not see?",
    group="people",
    quantity="view_loss",
    unit="% of views lost",
    decimals=0,
    needs=("views",),
    settings=ViewSettings,
    measure=_measure,
    explain=_explain,
    sources=(
        "Share of the window's angles behind which nothing nearer stands: plane geometry.",
        "Which views count, and which want screening: yours.",
    ),
)
