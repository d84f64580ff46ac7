"""The soil at every place: the patch it lies in, else the site's general soil."""

from dataclasses import dataclass

import numpy as np
import shapely

from model.land.soil_texture import texture_class
from model.survey.feature import Feature
from model.survey.site import Site
from model.survey.soil import TEXTURES

FERTILITY = {"poor": -1.0, "ordinary": 0.0, "rich": 1.0}


@dataclass(frozen=True)
class Soils:
    """The soil at every place (place,).

    `fertility`: -1 poor, 0 ordinary, 1 rich; `depth` that roots can use [cm]; `ph` in water;
    `texture`: number of the texture class in `TEXTURES`.
    """

    fertility: np.ndarray
    depth: np.ndarray
    ph: np.ndarray
    texture: np.ndarray


def soils_of(site: Site, x: np.ndarray, y: np.ndarray) -> Soils:
    """Soil at points (place,); a later patch lies over an earlier one."""
    general = site.soil
    soils = Soils(
        fertility=np.full(np.shape(x), FERTILITY[general.fertility]),
        depth=np.full(np.shape(x), general.depth_cm),
        ph=np.full(np.shape(x), general.ph),
        texture=np.full(np.shape(x), TEXTURES.index(general.texture)),
    )
    for patch in site.of_kind("soil_patch"):
        within = shapely.contains_xy(patch.geometry, x, y)
        soils.fertility[within] = FERTILITY[patch.words("fertility")]
        soils.depth[within] = patch.number("depth_cm")
        soils.ph[within] = patch.number("ph")
        soils.texture[within] = TEXTURES.index(_texture(patch))
    return soils


def _texture(patch: Feature) -> str:
    """Texture class of a patch: by its sand and clay where measured, else as found by hand."""
    sand, clay = patch.number("sand_percent"), patch.number("clay_percent")
    if np.isfinite([sand, clay]).all() and sand + clay <= 100:
        return str(texture_class(sand, clay))
    return patch.words("texture")
