"""A survey, or the traits of trees, with some figures other than they were written."""

from collections.abc import Mapping
from dataclasses import replace

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from model.robustness.doubt import WIDEST, Doubt
from model.robustness.doubts import POSITION_NAME, TENTH, follows
from model.survey.feature import Feature
from model.survey.site import Site
from model.survey.soil import Soil
from model.trees import HIGH, LOW, TYPICAL, Traits


def moved_site(site: Site, scores: Mapping[Doubt, float]) -> Site:
    """The site with the figures in doubt at their standard scores."""
    features, soil = list(site.features), site.soil
    for doubt, z in scores.items():
        subject, value = doubt.subject, float(doubt.at(z))
        if subject.rootstock:
            continue
        if subject.feature < 0:
            soil = Soil(**{**vars(soil), subject.attribute: value})
        else:
            features[subject.feature] = _moved(features[subject.feature], subject.attribute, value)
    return replace(site, features=tuple(features), soil=soil)


def _moved(feature: Feature, attribute: str, value: float) -> Feature:
    if attribute == POSITION_NAME:
        return replace(feature, geometry=shifted(feature.geometry, value))
    full = f"full_{attribute}"
    follow = {full: value} if full in feature.attributes and follows(feature, full) else {}
    return replace(feature, attributes={**feature.attributes, **follow, attribute: value})


def shifted(line: BaseGeometry, metres: float) -> BaseGeometry:
    """A line moved bodily to its right, seen from its first end to its last.

    A line that ends where it began is moved east.
    """
    points = shapely.get_coordinates(line)
    east, north = points[-1] - points[0]
    length = float(np.hypot(east, north))
    right = np.array([north, -east]) / length if length > 0 else np.array([1.0, 0.0])
    return shapely.transform(line, lambda corners: corners + metres * right)


def sized_traits(traits: Traits, scores: Mapping[str, float]) -> Traits:
    """Traits with the typical size of trees at the standard score of their rootstock.

    Their largest and smallest size stay: what must keep clear of a wire by the largest that it may
    grow keeps clear of it still.
    """
    z = np.array([scores.get(option.rootstock, 0.0) for option in traits.options])
    height, spread = traits.height.copy(), traits.spread.copy()
    for size in (height, spread):
        size[TYPICAL] = _sized(size, np.clip(z, -WIDEST, WIDEST))
    return replace(traits, height=height, spread=spread)


def _sized(size: np.ndarray, z: np.ndarray) -> np.ndarray:
    """Size at standard scores (option,) of low, typical and high (3, option) [m]."""
    below = np.maximum(size[TYPICAL] - size[LOW], 0) / TENTH
    above = np.maximum(size[HIGH] - size[TYPICAL], 0) / TENTH
    moved = size[TYPICAL] + z * np.where(z < 0, np.nan_to_num(below), np.nan_to_num(above))
    return np.maximum(moved, 0.1)
