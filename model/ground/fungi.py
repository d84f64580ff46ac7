"""Established woody hosts and old grass, by the kind of mycorrhiza that they share."""

import numpy as np
import shapely

from model.ground.obstacles import full_crown, full_height
from model.ground.root_zones import WOODY, kinds_of
from model.land import roots
from model.survey.feature import Feature
from model.survey.site import Site
from model.trees import Catalogue

TYPES = ("AM", "EcM")
OLD = 20.0  # [yr] grass this old is taken as fully stocked (common practice, no source)


def fungal_links(site: Site, catalogue: Catalogue, x: np.ndarray, y: np.ndarray) -> np.ndarray:
    """Link of places to established hosts of each of `TYPES` (type, place) [0 to 1].

    Full under the hosts' crowns and falling to nothing where their roots end; in grassland by its
    age. Links from several hosts add as chances do: 1 less the product of what each leaves.
    Source: model choice (common practice, no source); what networks do is disputed.
    """
    points = np.asarray(shapely.points(x, y))
    unlinked = np.ones((len(TYPES), x.size))
    for feature in site.of_kind(*WOODY):
        distance = np.asarray(shapely.distance(points, feature.geometry))
        unlinked *= 1 - _woody(feature, catalogue, distance)
    for grass in site.of_kind("grassland"):
        age = min(grass.number("age_years") / OLD, 1.0)
        unlinked[TYPES.index("AM")] *= 1 - age * shapely.contains(grass.geometry, points)
    return 1 - unlinked


def _woody(feature: Feature, catalogue: Catalogue, distance: np.ndarray) -> np.ndarray:
    """Link to one tree, wood or hedge (type, place): the share of its kinds that share it."""
    kinds = kinds_of(feature, catalogue)
    single = feature.kind == "neighbour_tree"
    height = full_height(feature, catalogue) if single else feature.number("height_m")
    crown = full_crown(feature, catalogue) if single else 0.0
    link = np.zeros((len(TYPES), distance.size))
    for kind in kinds:
        ends = roots.reach(height, kind.root_reach_per_height)
        near = roots.influence(distance, crown / 2, ends, 1.0)
        for number, name in enumerate(TYPES):
            link[number] += near * (name in kind.mycorrhiza.split(" and ")) / len(kinds)
    return link
