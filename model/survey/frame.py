"""The site's local frame: metres east and north of its origin."""

from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import Any

import numpy as np
import shapely
from pyproj import CRS, Transformer
from pyproj.exceptions import ProjError
from shapely.geometry.base import BaseGeometry

WGS84 = "OGC:CRS84"


@dataclass(frozen=True)
class Frame:
    """A transverse Mercator plane (scale 1) through the origin, on the WGS 84 ellipsoid.

    Within 10 km of the origin a distance is true to 2 parts in a million. The x axis points east
    and the y axis north at the origin; for each km east of it the y axis leaves true north by
    0.009 degrees times the tangent of the latitude.

    References
    ----------
    Snyder (1987), Map projections: a working manual, USGS Professional Paper 1395, p. 48 to 61
    (the scale grows as 1 + x^2 / 2 R^2 off the central meridian).
    """

    latitude: float
    longitude: float

    @cached_property
    def crs(self) -> CRS:
        """The frame as a coordinate reference system that GIS programs understand."""
        return CRS.from_proj4(
            f"+proj=tmerc +lat_0={self.latitude:.12f} +lon_0={self.longitude:.12f} "
            "+k=1 +x_0=0 +y_0=0 +datum=WGS84 +units=m +no_defs"
        )

    def system(self, name: Any) -> CRS | None:
        """The coordinate system of that name, None when it has none that leads to this frame."""
        try:
            crs = CRS.from_user_input(name)
            _transformer(crs, self.crs)
        except (ProjError, ValueError, TypeError, RecursionError):
            return None
        return crs if crs.is_geographic or crs.is_projected else None

    def local(self, geometry: BaseGeometry, crs: Any = WGS84) -> BaseGeometry:
        """A geometry in local metres; coordinates that cannot be projected become infinite."""
        return _transformed(geometry, _transformer(crs, self.crs))

    def geographic(self, geometry: BaseGeometry) -> BaseGeometry:
        """A geometry in degrees, longitude first."""
        return _transformed(geometry, _transformer(self.crs, WGS84))


@lru_cache(maxsize=64)
def _transformer(source: Any, target: Any) -> Transformer:
    """Kept, as making one takes longer than projecting a whole survey with it."""
    return Transformer.from_crs(source, target, always_xy=True)


def _transformed(geometry: BaseGeometry, project: Transformer) -> BaseGeometry:
    def projected(points: np.ndarray) -> np.ndarray:
        return np.column_stack(project.transform(points[:, 0], points[:, 1]))

    return shapely.transform(geometry, projected)
