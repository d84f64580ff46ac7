"""Where the side elevation is seen from: a valued view, the house, or a tapped place."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from model.ground.views import View
from model.growth.stand import Stand
from model.study import Study

STANDING = 1.6  # [m] height of a standing person's eyes (common practice, no source)
FIELD = 80.0  # [degrees] seen at a glance to left and right together (common practice, no source)
BESIDE = 12.0  # [degrees] drawn on either side of a view's window


@dataclass(frozen=True)
class Eye:
    """An eye: `x`, `y` and `height` [m] (in the ground's datum), `bearing` and `width` [degrees].

    `view` is the valued view that it looks out of, None elsewhere.
    """

    label: str
    x: float
    y: float
    height: float
    bearing: float
    width: float
    view: View | None = None


def view_eyes(study: Study) -> tuple[Eye, ...]:
    """The eyes of the site's valued views."""
    views = study.ground.views
    return tuple(
        Eye(v.label, w.x, w.y, w.eye, w.bearing, min(w.width + 2 * BESIDE, 360.0), v)
        for v in (views.views if views is not None else ())
        for w in (v.window,)
    )


def standing_eye(
    study: Study, label: str, x: float, y: float, bearing: float, width: float = FIELD
) -> Eye:
    """A person standing at a point, looking along a bearing."""
    ground = float(study.ground.surface(np.array([x]), np.array([y]))[0])
    return Eye(label, x, y, ground + STANDING, bearing % 360, width)


def bearing_of_trees(stand: Stand, x: float, y: float) -> float:
    """Bearing from a point to the middle of the planted trees [degrees], south where none are."""
    new = stand.new
    if not new:
        return 180.0
    east, north = stand.x[:new] - x, stand.y[:new] - y
    away = np.maximum(np.hypot(east, north), 1e-9)
    return float(np.degrees(np.arctan2((east / away).sum(), (north / away).sum())) % 360)


def offset_of(eye: Eye, x: Sequence[float] | np.ndarray, y: Sequence[float] | np.ndarray) -> tuple:
    """Angles to the right of the middle [degrees] and level distances [m] of points."""
    east, north = np.asarray(x, dtype=float) - eye.x, np.asarray(y, dtype=float) - eye.y
    turn = (np.degrees(np.arctan2(east, north)) - eye.bearing + 180) % 360 - 180
    return turn, np.hypot(east, north)
