"""Buried services and overhead lines: how far every place is from each."""

from dataclasses import dataclass

import numpy as np
import shapely

from model.ground.obstacles import described
from model.survey.site import Site


@dataclass(frozen=True)
class Services:
    """Pipes, cables and lines.

    `labels` and `carries` (service,) say what each is; `distance` (service, place) [m] is level;
    `asked` (service,) [m] is the clearance asked of a buried one and `height` (service,) [m] the
    lowest wire of an overhead one, NaN for the other kind.
    """

    labels: tuple[str, ...]
    carries: tuple[str, ...]
    distance: np.ndarray
    asked: np.ndarray
    height: np.ndarray


def services_of(site: Site, x: np.ndarray, y: np.ndarray) -> Services | None:
    """The services drawn on a site; None when none is."""
    drawn = site.of_kind("buried_service", "overhead_line")
    if not drawn:
        return None
    points = np.asarray(shapely.points(x, y))
    buried = [feature.kind == "buried_service" for feature in drawn]
    return Services(
        labels=tuple(described(feature) for feature in drawn),
        carries=tuple(feature.words("service") for feature in drawn),
        distance=np.stack([shapely.distance(points, f.geometry) for f in drawn]).astype(np.float32),
        asked=np.array(
            [f.number("clearance_m") if b else np.nan for f, b in zip(drawn, buried, strict=True)]
        ),
        height=np.array(
            [np.nan if b else f.number("height_m") for f, b in zip(drawn, buried, strict=True)]
        ),
    )
