"""Soil texture: the class of sand, silt and clay, and how the soil holds and passes water."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

# Sand and clay [%] at the middle of each class, Saxton & Rawls (2006), table 3.
CENTRES: dict[str, tuple[float, float]] = {
    "sand": (88, 5),
    "loamy sand": (80, 5),
    "sandy loam": (65, 10),
    "loam": (40, 20),
    "silt loam": (20, 15),
    "silt": (10, 5),
    "sandy clay loam": (60, 25),
    "clay loam": (30, 35),
    "silty clay loam": (10, 35),
    "sandy clay": (50, 40),
    "silty clay": (10, 45),
    "clay": (25, 50),
}
ORGANIC_MATTER = 2.5  # [%] by weight, that of the same table
DRIEST = 0.005  # [m3/m3] pure sand without organic matter would come out below nothing


@dataclass(frozen=True)
class SoilWater:
    """How a soil holds and passes water; arrays of one shape.

    Attributes
    ----------
    wilting_point, field_capacity, saturation : array [m3/m3]
        Water left when plants wilt, when a wet soil has drained, and when every pore is full.
    available : array [mm/m]
        Water that plants can use, in a metre of soil.
    conductivity : array [mm/h]
        Of the soil when full of water.

    """

    wilting_point: NDArray[np.float64]
    field_capacity: NDArray[np.float64]
    saturation: NDArray[np.float64]
    available: NDArray[np.float64]
    conductivity: NDArray[np.float64]

    @property
    def drainable(self) -> NDArray[np.float64]:
        """Pores that empty by themselves after rain [m3/m3]."""
        return self.saturation - self.field_capacity


def texture_class(sand: ArrayLike, clay: ArrayLike) -> NDArray[np.str_]:
    """USDA texture class of each soil, broadcast shape, in lower case.

    `sand` and `clay` [%] by weight of the fine earth; the rest is silt. Shares below 0 or above
    100 together raise a ValueError.

    Source: USDA Soil Survey Manual (2017), chapter 3, definitions of the texture classes.

    >>> texture_class([40, 10], [20, 50]).tolist()
    ['loam', 'silty clay']
    """
    s, c = np.broadcast_arrays(np.asarray(sand, dtype=float), np.asarray(clay, dtype=float))
    if ((s < 0) | (c < 0) | (s + c > 100 + 1e-9)).any():
        raise ValueError("sand and clay must be shares of 0 to 100 %, together at most 100")
    silt = 100 - s - c
    loamy_sand_edge, sandy_loam_edge = silt + 1.5 * c < 15, silt + 2 * c < 30
    # The first that holds, in this order; together they tile the triangle.
    rules = {
        "sand": loamy_sand_edge,
        "loamy sand": sandy_loam_edge & ~loamy_sand_edge,
        "sandy clay": (c >= 35) & (s > 45),
        "silty clay": (c >= 40) & (silt >= 40),
        "clay": c >= 40,
        "silty clay loam": (c >= 27) & (s <= 20),
        "clay loam": (c >= 27) & (s <= 45),
        "sandy clay loam": (c >= 20) & (silt < 28) & (s > 45),
        "silt": (silt >= 80) & (c < 12),
        "silt loam": silt >= 50,
        "sandy loam": (s > 52) | ((c < 7) & (silt < 50)),
    }
    return np.select(list(rules.values()), list(rules), default="loam")


def soil_water(
    sand: ArrayLike, clay: ArrayLike, organic_matter: ArrayLike = ORGANIC_MATTER
) -> SoilWater:
    """Water that a soil holds and passes, from its texture and organic matter.

    For fine earth of ordinary density without salt. The equations were fitted to soils with up to
    60 % clay and 8 % organic matter; beyond that they are held at the limit.

    Parameters
    ----------
    sand, clay, organic_matter : array [%]
        By weight; they broadcast.

    Returns
    -------
    SoilWater

    References
    ----------
    Saxton & Rawls (2006), Soil water characteristic estimates by texture and organic matter for
    hydrologic solutions, Soil Sci. Soc. Am. J. 70:1569-1578, equations 1 to 5, 15 and 16.

    Examples
    --------
    >>> soil_water(40, 20).available.round().item()
    143.0

    """
    s = np.asarray(sand, dtype=float) / 100
    c = np.minimum(np.asarray(clay, dtype=float), 60) / 100
    om = np.minimum(np.asarray(organic_matter, dtype=float), 8)
    wilting = np.maximum(_wilting_point(s, c, om), DRIEST)
    capacity = _field_capacity(s, c, om)
    saturated = capacity + _drainable(s, c, om) - 0.097 * s + 0.043
    slope = (np.log(capacity) - np.log(wilting)) / (np.log(1500) - np.log(33))
    conductivity = 1930 * np.maximum(saturated - capacity, 0) ** (3 - slope)
    available = 1000 * (capacity - wilting)
    return SoilWater(wilting, capacity, saturated, available, conductivity)


def soil_water_of(textures: ArrayLike) -> SoilWater:
    """Water that soils of the named classes hold and pass, at the middle of each class.

    `textures` array of names; an unknown one raises a ValueError that lists those there are.
    Source: as `soil_water`.

    >>> soil_water_of(["clay", "sand"]).conductivity.round(1).tolist()
    [1.1, 108.1]
    """
    names = np.asarray(textures)
    unknown = sorted(set(names.ravel().tolist()) - set(CENTRES))
    if unknown:
        raise ValueError(f"texture: found {unknown}, expected one of {', '.join(CENTRES)}")
    shares = np.array([CENTRES[name] for name in names.ravel().tolist()]).reshape(*names.shape, 2)
    return soil_water(shares[..., 0], shares[..., 1])


def _wilting_point(s: NDArray, c: NDArray, om: NDArray) -> NDArray[np.float64]:
    """Water held against 1500 kPa [m3/m3]; equation 1."""
    first = (
        -0.024 * s
        + 0.487 * c
        + 0.006 * om
        + 0.005 * s * om
        - 0.013 * c * om
        + 0.068 * s * c
        + 0.031
    )
    return first + 0.14 * first - 0.02


def _field_capacity(s: NDArray, c: NDArray, om: NDArray) -> NDArray[np.float64]:
    """Water held against 33 kPa [m3/m3]; equation 2."""
    first = (
        -0.251 * s
        + 0.195 * c
        + 0.011 * om
        + 0.006 * s * om
        - 0.027 * c * om
        + 0.452 * s * c
        + 0.299
    )
    return first + 1.283 * first**2 - 0.374 * first - 0.015


def _drainable(s: NDArray, c: NDArray, om: NDArray) -> NDArray[np.float64]:
    """Water between saturation and 33 kPa [m3/m3]; equation 3."""
    first = (
        0.278 * s + 0.034 * c + 0.022 * om - 0.018 * s * om - 0.027 * c * om - 0.584 * s * c + 0.078
    )
    return first + 0.636 * first - 0.107
