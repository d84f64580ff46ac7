"""What limits a crown's room: full-grown neighbours, buildings, boundaries, ways and water."""

from dataclasses import dataclass

import numpy as np
import shapely

from model.language import _
from model.survey.feature import Feature
from model.survey.site import Site
from model.trees import Catalogue, neighbour

SOLID = ("building", "wall", "fence", "hedge", "watercourse", "path", "keep_clear", "woodland")


@dataclass(frozen=True)
class Obstacles:
    """Distance from every place to the near side of every obstacle.

    `labels` (obstacle,) say what each is; `distance` (obstacle, place) [m] is negative inside it.
    """

    labels: tuple[str, ...]
    distance: np.ndarray

    def nearest(self) -> tuple[np.ndarray, np.ndarray]:
        """Distance to the nearest obstacle and which it is, (place,) each."""
        which = self.distance.argmin(axis=0)
        return np.take_along_axis(self.distance, which[None], axis=0)[0], which


def obstacles_of(site: Site, catalogue: Catalogue, x: np.ndarray, y: np.ndarray) -> Obstacles:
    """The obstacles of a site, neighbour trees at their own full size, and their distances."""
    points = np.asarray(shapely.points(x, y))
    boundary = site.boundary
    edge = shapely.distance(points, boundary.exterior)
    labels, distances = (
        [_("the boundary")],
        [np.where(shapely.contains(boundary, points), edge, -edge)],
    )
    for feature in site.of_kind("neighbour_tree", *SOLID):
        labels.append(described(feature))
        distances.append(_distance(points, outline(feature, catalogue)))
    return Obstacles(tuple(labels), np.stack(distances).astype(np.float32))


def described(feature: Feature) -> str:
    """What people call a feature: its name, or its kind."""
    return feature.name or _(unnamed(feature.kind))


def unnamed(kind: str) -> str:
    """What a feature of a kind is called that has no name of its own, in English.

    >>> unnamed("neighbour_tree")
    'the neighbour tree'
    """
    return f"the {kind.replace('_', ' ')}"


def outline(feature: Feature, catalogue: Catalogue) -> shapely.Geometry:
    """The ground a feature takes up once full grown, as a polygon in local metres."""
    if feature.kind == "neighbour_tree":
        return feature.geometry.buffer(full_crown(feature, catalogue) / 2)
    if feature.geometry.geom_type == "LineString":
        return feature.geometry.buffer(feature.number("width_m") / 2, cap_style="flat")
    return feature.geometry


def full_crown(feature: Feature, catalogue: Catalogue) -> float:
    """Full-grown spread of a neighbour tree [m]: as surveyed, else by its kind's proportions."""
    drawn = feature.number("full_crown_m")
    if np.isfinite(drawn):
        return max(drawn, feature.number("crown_m"))
    kind = neighbour(catalogue, feature.words("species"))
    return max(feature.number("crown_m"), full_height(feature, catalogue) * kind.crown_to_height)


def full_height(feature: Feature, catalogue: Catalogue) -> float:
    """Full-grown height of a neighbour tree [m]: as surveyed, else its kind's mature height."""
    drawn = feature.number("full_height_m")
    if not np.isfinite(drawn):
        drawn = neighbour(catalogue, feature.words("species")).mature_height
    return max(drawn, feature.number("height_m"))


def _distance(points: np.ndarray, shape: shapely.Geometry) -> np.ndarray:
    """Distance of points to a polygon's edge, negative inside it (place,) [m]."""
    edge = shapely.distance(points, shapely.boundary(shape))
    return np.where(shapely.intersects(points, shape), -edge, edge)
