"""Drainage: does the root zone stand wet for longer than the tree bears?"""

import numpy as np
import param

from model.decision.desirability import Curve
from model.factors.factor import Factor, Settings
from model.ground import Ground
from model.language import _
from model.trees import Traits

MIDDLING = 3.0  # the class of a tree of which nothing is known


class DrainageSettings(Settings):
    """The curve over the months too wet, and what each class of tolerance is worth."""

    curve = param.ClassSelector(
        class_=Curve, default=Curve((-1.0, 0.0, 1.0, 3.0), (1.0, 0.9, 0.5, 0.03))
    )
    months_a_class = param.Number(
        1.5,
        bounds=(0.2, 3.0),
        doc="Wet months in the dormant season that each class of tolerance above 1 bears [months].",
    )


def months_borne(waterlog: np.ndarray, months_a_class: float) -> np.ndarray:
    """Wet months a year that trees bear, by class 1 (none) to 5 (option,) [months]."""
    return (np.nan_to_num(waterlog, nan=MIDDLING) - 1) * months_a_class


def _measure(ground: Ground, traits: Traits, *, months_a_class: float) -> np.ndarray:
    return ground.wet_months - months_borne(traits.waterlog, months_a_class)[:, None]


def _explain(
    ground: Ground, traits: Traits, option: int, place: int, *, months_a_class: float
) -> str:
    borne = months_borne(traits.waterlog, months_a_class)[option]
    return _(
        "The root zone stands wet {months:.1f} months a year here (as seen, or as slope, soil and "
        "weather say); on this rootstock the tree bears about {borne:.1f}."
    ).format(months=ground.wet_months[place], borne=borne)


DRAINAGE = Factor(
    name="drainage",
    label="Drainage",
    question="Does it stand in wet ground for longer than it bears?",
    group="ground",
    quantity="months_too_wet",
    unit="months too wet",
    decimals=1,
    needs=(),
    settings=DrainageSettings,
    measure=_measure,
    explain=_explain,
    sources=(
        "Saturation of slopes: O'Loughlin (1986), Water Resources Research 22:794.",
        "What soils pass on: Saxton & Rawls (2006), Soil Sci. Soc. Am. J. 70:1569.",
        "Tolerance by class: the catalogue; months by class are a model choice (no source).",
    ),
)
