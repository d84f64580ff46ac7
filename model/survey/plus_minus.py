"""How far a surveyed figure may be off: the plus-minus that may stand beside it.

As people say it, "5 m, give or take 1": 19 times in 20 the true figure lies within the plus-minus.
That makes it two standard deviations of a normal error.
"""

import math

from model.survey.attribute import Attribute
from model.survey.kinds import KINDS, FeatureKind
from model.survey.soil import SOIL_ATTRIBUTES

SUFFIX = "_plus_minus"
DEVIATIONS = 2.0  # standard deviations in a plus-minus
# Lines whose place is seldom known as well as what they keep away from is measured.
SHIFTED = ("buried_service", "overhead_line", "animal_run")
POSITION = Attribute(
    "position_plus_minus_m",
    "m",
    math.nan,
    0,
    100,
    (),
    "how far it may lie to either side of where it is drawn, 19 times in 20",
)


def plus_minus_of(figure: Attribute) -> Attribute:
    """The optional field that says how far a numeric field may be off, in its own unit."""
    if figure.low is None or figure.high is None:
        raise ValueError(
            f"plus-minus: found {figure.name}, expected a field with a number, "
            "mend by leaving it out for words"
        )
    meaning = f"how far {figure.name} may be off, 19 times in 20"
    name = figure.name + SUFFIX
    return Attribute(name, figure.unit, math.nan, 0, figure.high - figure.low, (), meaning)


def plus_minuses(kind: FeatureKind) -> tuple[Attribute, ...]:
    """Every plus-minus that a feature of a kind may carry."""
    position = (POSITION,) if kind.name in SHIFTED else ()
    return (*(plus_minus_of(one) for one in kind.attributes if one.is_number), *position)


def plus_minus_fields() -> dict[str, Attribute]:
    """Every plus-minus that any feature may carry by name, in the order of KINDS."""
    return {one.name: one for kind in KINDS.values() for one in plus_minuses(kind)}


SOIL_PLUS_MINUSES = tuple(plus_minus_of(one) for one in SOIL_ATTRIBUTES if one.is_number)
