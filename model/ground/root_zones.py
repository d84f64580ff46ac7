"""Neighbours' feeding roots over the ground, and the shares of rooting circles they hold."""

from dataclasses import dataclass

import numpy as np
import shapely

from model.ground.circles import RADII, Circles
from model.ground.obstacles import described, full_crown, full_height
from model.ground.places import Places
from model.land import roots
from model.survey.feature import Feature
from model.survey.site import Site
from model.trees import Catalogue, Neighbour, neighbour

WOODY = ("neighbour_tree", "woodland", "hedge")


@dataclass(frozen=True)
class RootZones:
    """Competition of neighbours' roots.

    `share` is the mean competition in circles [1];
    `labels` (neighbour,) and `by_neighbour` (neighbour, place) [1] say whose roots stand at the
    very place; `juglone` (neighbour, place) whether a walnut's juglone reaches it.
    """

    share: Circles
    labels: tuple[str, ...]
    by_neighbour: np.ndarray
    juglone: np.ndarray


def root_zones_of(site: Site, catalogue: Catalogue, places: Places) -> RootZones:
    """Root competition of every neighbour tree, hedge and wood on and round the site."""
    woody = site.of_kind(*WOODY)
    points = np.asarray(shapely.points(places.x, places.y))
    distance = [np.asarray(shapely.distance(points, f.geometry)) for f in woody]
    strength = [_influence(f, catalogue, d) for f, d in zip(woody, distance, strict=True)]
    by_neighbour = np.array(strength).reshape(len(woody), points.size)
    field = places.grid(roots.combined(by_neighbour))
    return RootZones(
        share=Circles(
            places.at_places(roots.disc_mean(field, places.cell, RADII)).astype(np.float32)
        ),
        labels=tuple(described(feature) for feature in woody),
        by_neighbour=by_neighbour.astype(np.float32),
        juglone=np.array(
            [d <= _juglone_reach(f, catalogue) for f, d in zip(woody, distance, strict=True)],
            dtype=bool,
        ).reshape(by_neighbour.shape),
    )


def kinds_of(feature: Feature, catalogue: Catalogue) -> list[Neighbour]:
    """The kinds of tree in a feature, one or, in a wood or a mixed hedge, several."""
    names = feature.words("species").split(";")
    return [neighbour(catalogue, name.strip()) for name in names]


def _influence(feature: Feature, catalogue: Catalogue, distance: np.ndarray) -> np.ndarray:
    """Competition of one feature's roots at distances from its stems (place,) [1].

    A wood or a mixed hedge holds each of its kinds in equal shares.
    """
    kinds = kinds_of(feature, catalogue)
    influences = [
        roots.influence(
            distance,
            _crown(feature, catalogue, kind) / 2,
            roots.reach(_height(feature, catalogue), kind.root_reach_per_height),
            kind.root_strength,
        )
        for kind in kinds
    ]
    return np.mean(influences, axis=0)


def _height(feature: Feature, catalogue: Catalogue) -> float:
    """Height that a feature's roots answer to [m]: full-grown, but a hedge as it is kept."""
    if feature.kind == "neighbour_tree":
        return full_height(feature, catalogue)
    return feature.number("height_m")


def _crown(feature: Feature, catalogue: Catalogue, kind: Neighbour) -> float:
    """Spread of the crowns whose stems a feature's outline follows [m]."""
    if feature.kind == "neighbour_tree":
        return full_crown(feature, catalogue)
    if feature.kind == "hedge":
        return feature.number("width_m")
    return kind.crown_to_height * feature.number("height_m")


def _juglone_reach(feature: Feature, catalogue: Catalogue) -> float:
    """How far the juglone of a feature's walnuts reaches [m]; below zero where it has none."""
    reaches = [kind.juglone_reach for kind in kinds_of(feature, catalogue)]
    return max((reach for reach in reaches if np.isfinite(reach) and reach > 0), default=-1.0)
