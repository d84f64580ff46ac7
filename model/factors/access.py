"""Access: how long does one walk in a year for the visits this tree needs?"""

import numpy as np
import param

from model.decision.desirability import Curve
from model.factors.factor import Factor, RuleOut, Settings
from model.ground import Ground, given
from model.language import _
from model.trees import Traits

HOUR = 3600.0


class AccessSettings(Settings):
    """The curve over the hours walked, and visits beyond those the tree itself needs."""

    curve = param.ClassSelector(
        class_=Curve, default=Curve((0.0, 1.0, 4.0, 12.0), (1.0, 0.9, 0.5, 0.05))
    )
    other_visits = param.Integer(
        0,
        bounds=(0, 400),
        doc="Visits a year for pleasure or for stock, beyond the tree's own [1/yr].",
    )


def walking_hours(there_and_back: np.ndarray, visits: np.ndarray) -> np.ndarray:
    """Walking for a year's visits (option, place) [h]: (place,) [s] times (option,) [1/yr]."""
    return visits[:, None] * there_and_back / HOUR


def _measure(ground: Ground, traits: Traits, *, other_visits: int) -> np.ndarray:
    return walking_hours(given(ground.walk), traits.visits + other_visits)


def _rules_out(ground: Ground, traits: Traits, *, other_visits: int) -> tuple[RuleOut, ...]:
    unreached = ground.places.inside & np.isnan(given(ground.walk))
    return (RuleOut(_("no way leads there from the house"), unreached[None]),)


def _explain(ground: Ground, traits: Traits, option: int, place: int, *, other_visits: int) -> str:
    visits = traits.visits[option] + other_visits
    walk = given(ground.walk)[place]
    if np.isnan(walk):
        return _("No way leads there from the house over gates and bridges.")
    return _(
        "{visits:.0f} visits a year (pruning, thinning, mowing, picking, guards), each "
        "{minutes:.1f} minutes there and back: {hours:.1f} h a year."
    ).format(visits=visits, minutes=walk / 60, hours=visits * walk / HOUR)


ACCESS = Factor(
    name="access",
    label="Access",
    question="How long does one walk in a year to look after it?",
    group="people",
    quantity="walking_time",
    unit="h a year",
    decimals=1,
    needs=("walk",),
    settings=AccessSettings,
    measure=_measure,
    rules_out=_rules_out,
    explain=_explain,
    sources=(
        "Walking speed on slopes and off paths: Tobler (1993), NCGIA technical report 93-1.",
        "Visits a year by kind of tree: the catalogue, value by value.",
    ),
)
