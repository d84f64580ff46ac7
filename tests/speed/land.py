"""The land's slower physics against plain work on as many numbers."""

import numpy as np
from skimage.graph import MCP_Geometric

from model.land.chill import chill_portions
from model.land.sight import share_covered
from model.land.skyline import skyline
from model.land.walking import walking_time
from model.land.window import Window

from .comparison import Comparison, times

OPTIONS, SIDE, VIEWS = 14, 100, 3
WINTERS, OFFSETS = 40, 3


class Hills:
    """Invented rolling ground, trees of many sizes on it, a walker and some winters."""

    def __init__(self) -> None:
        random = np.random.default_rng(1)
        self.axis = np.arange(SIDE) * 1.5
        x, y = np.meshgrid(self.axis, self.axis)
        self.z = 3 * np.sin(x / 40) * np.cos(y / 30)
        self.places = x.ravel(), y.ravel(), self.z.ravel()
        self.heights = random.uniform(2, 9, (OPTIONS, x.size))
        self.factor = random.uniform(1, 2, x.shape)
        self.winters = random.normal(5, 5, (4368, WINTERS, OFFSETS))
        self.many = random.random((VIEWS, OPTIONS, x.size))
        walls = [(60.0 + k, 30.0, 61.0 + k, 30.0, 2.0) for k in range(40)]
        windows = [Window(75, 5 + 20 * k, 4, 0, 60, -5, 10, 150) for k in range(VIEWS)]
        self.views = [(w, skyline(w, self.z, self.axis, self.axis, (), walls)) for w in windows]

    def covered(self) -> list[np.ndarray]:
        """Every tree at every place in every view."""
        return [
            share_covered(*view, self.places, self.heights, self.heights) for view in self.views
        ]

    def walk(self) -> tuple[np.ndarray, np.ndarray]:
        """Out and back over hills in sixteen directions."""
        return walking_time(self.z, 1.5, np.ones(self.z.shape, dtype=bool), (0, 0), self.factor)

    def level_walk(self) -> np.ndarray:
        """The yardstick of a walk: one way, level, in eight directions."""
        return MCP_Geometric(self.factor).find_costs([(0, 0)])[0]


def comparisons() -> list[Comparison]:
    """Views, walking and chill, at the size of a large demo."""
    hills = Hills()
    work = {
        "views": hills.covered,
        "angles": lambda: np.arctan2(hills.many, 2.0),
        "walk": hills.walk,
        "level walk": hills.level_walk,
        "chill": lambda: chill_portions(hills.winters),
        "exponentials": lambda: np.exp(hills.winters),
    }
    took = times(work, 7)
    trees = f"{OPTIONS} trees at {SIDE**2:,} places in {VIEWS} views"
    return [
        Comparison(trees, "one arctangent each", took["views"], took["angles"]),
        Comparison("walk out and back", "scikit-image, one way", took["walk"], took["level walk"]),
        Comparison(
            "chill portions", "one exponential an hour", took["chill"], took["exponentials"]
        ),
    ]
