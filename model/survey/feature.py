"""A thing on the site with a place."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, field

from shapely.geometry.base import BaseGeometry

from model.survey.attribute import REQUIRED, Attribute, Value
from model.survey.kinds import KINDS, FeatureKind
from model.survey.plus_minus import SUFFIX

__all__ = ["KINDS", "REQUIRED", "Attribute", "Feature", "FeatureKind", "same_feature"]

SAME_PLACE = 0.001  # m


@dataclass(frozen=True)
class Feature:
    """One feature: geometry in local metres, attributes complete with their defaults.

    A plus-minus stands among the attributes only where one was given.
    """

    kind: str
    name: str
    geometry: BaseGeometry
    attributes: Mapping[str, Value] = field(default_factory=dict)
    origin: str = ""

    def number(self, attribute: str) -> float:
        """A numeric attribute, in the unit that KINDS gives it."""
        return float(self.attributes[attribute])

    def plus_minus(self, attribute: str) -> float:
        """How far a numeric attribute may be off, 19 times in 20; NaN where nothing was said."""
        return float(self.attributes.get(attribute + SUFFIX, math.nan))

    def words(self, attribute: str) -> str:
        """An attribute in words."""
        return str(self.attributes[attribute])


def same_feature(one: Feature, other: Feature) -> bool:
    """Whether two features say the same, every vertex within 1 mm, whatever file they came from."""
    return (
        (one.kind, one.name) == (other.kind, other.name)
        and one.geometry.geom_type == other.geometry.geom_type
        and bool(one.geometry.equals_exact(other.geometry, SAME_PLACE))
        and one.attributes.keys() == other.attributes.keys()
        and all(same_value(value, other.attributes[name]) for name, value in one.attributes.items())
    )


def same_value(one: Value, other: Value) -> bool:
    """Whether two attribute values are equal, not-known equal to not-known."""
    if isinstance(one, float) and isinstance(other, float) and math.isnan(one):
        return math.isnan(other)
    return one == other
