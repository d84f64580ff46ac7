"""The soil at every place: the patch it lies in, else the site's general soil."""

import numpy as np
import shapely

from model.survey.site import Site

FERTILITY = {"poor": -1.0, "ordinary": 0.0, "rich": 1.0}


def fertility_of(site: Site, x: np.ndarray, y: np.ndarray) -> np.ndarray:
    """Fertility at points (place,): -1 poor, 0 ordinary, 1 rich; later patches lie over earlier."""
    fertility = np.full(np.shape(x), FERTILITY[site.soil.fertility])
    for patch in site.of_kind("soil_patch"):
        within = shapely.contains_xy(patch.geometry, x, y)
        fertility[within] = FERTILITY[patch.words("fertility")]
    return fertility
