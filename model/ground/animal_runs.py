"""The lines that animals walk, and how far every place is from each."""

from dataclasses import dataclass

import numpy as np
import shapely

from model.ground.obstacles import described
from model.survey.site import Site


@dataclass(frozen=True)
class AnimalRuns:
    """Animal runs: what each is called, which animal walks it, distance (run, place) [m]."""

    labels: tuple[str, ...]
    animals: tuple[str, ...]
    distance: np.ndarray


def animal_runs_of(site: Site, x: np.ndarray, y: np.ndarray) -> AnimalRuns | None:
    """The runs seen on a site; None when none is drawn."""
    drawn = site.of_kind("animal_run")
    if not drawn:
        return None
    points = np.asarray(shapely.points(x, y))
    return AnimalRuns(
        labels=tuple(described(run) for run in drawn),
        animals=tuple(run.words("animal") for run in drawn),
        distance=np.stack([shapely.distance(points, f.geometry) for f in drawn]).astype(np.float32),
    )
