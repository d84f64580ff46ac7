"""Light of a cloudless sky on sloping ground: the sun's beam, the sky's light and the ground's."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from model.land.leaf_season import DAYS
from model.land.shade import Standing, views
from model.land.sun_patches import SunPatches, sun_path

SOLAR_CONSTANT = 1361.0  # [W/m2] Kopp & Lean (2011), Geophysical Research Letters 38:L01706
HAZE = 0.1  # aerosol optical depth at 700 nm of clear country air; Ineichen (2008)
ALBEDO = 0.2  # of grass; common practice, no source
JOULES = 3600e-6  # [MJ/Wh]


@dataclass(frozen=True)
class SlopeLight:
    """Mean light of a cloudless day on the ground as it slopes, (month, place) [MJ/m2 a day].

    `beam` comes straight from the sun, `sky` from the rest of the sky, `ground` off the land
    in front.
    """

    beam: NDArray[np.float64]
    sky: NDArray[np.float64]
    ground: NDArray[np.float64]

    @property
    def total(self) -> NDArray[np.float64]:
        """All three together (month, place) [MJ/m2 a day]."""
        return self.beam + self.sky + self.ground


def slope_light(
    eyes: NDArray[np.float64],
    slope: ArrayLike,
    aspect: ArrayLike,
    standing: Standing,
    latitude: float,
    sky_share: ArrayLike = 1.0,
) -> SlopeLight:
    """Light on sloping ground through the year, with what stands in the beam's way.

    Clouds are left out: compare places and months by it.

    Parameters
    ----------
    eyes : array (place, 3) [m]
        x, y and height in the ground's datum.
    slope, aspect : arrays (place,) [1], [degrees clockwise from north, downhill]
        As `terrain` gives them; the aspect of level ground may be NaN.
    standing : Standing
        What throws shade.
    latitude : float [degrees]
        North positive.
    sky_share : array (place,)
        Share of the sky's light that things above the slope leave, 0 to 1.

    References
    ----------
    Liu & Jordan (1963), The long-term average performance of flat-plate solar-energy collectors,
    Solar Energy 7:53-74: an evenly bright sky.

    """
    facing = normals(slope, aspect)
    beam = np.zeros((12, len(eyes)))
    for part, patches, view in views(eyes, standing, latitude):
        strength = _clear_beam(patches)
        weights = patches.sums(strength).astype(np.float32)
        gain = incidence(facing[part], *mean_directions(patches, strength)).astype(np.float32)
        beam[:, part] += weights @ (view * gain).T
    beam *= JOULES / DAYS[:, None]
    level_beam, diffuse = level_light(latitude)
    up = facing[:, 2]
    return SlopeLight(
        beam=beam,
        sky=diffuse[:, None] * (1 + up) / 2 * np.asarray(sky_share),
        ground=(level_beam + diffuse)[:, None] * ALBEDO * (1 - up) / 2,
    )


def clear_sky(
    elevation: ArrayLike, above: ArrayLike, haze: float = HAZE
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Beam on a surface that faces it, and diffuse light on the level, broadcast shape [W/m2].

    At sea level and for 1 cm of water in the air, at which many of the paper's terms are 0.

    Parameters
    ----------
    elevation : array [degrees]
        Of the sun, above 0.
    above : array [W/m2]
        The beam above the air.
    haze : float
        Aerosol optical depth at 700 nm, 0.05 to 0.45.

    References
    ----------
    Ineichen (2008), A broadband simplified version of the Solis clear sky model, Solar Energy
    82:758-762.

    """
    height = np.sin(np.radians(elevation))
    strength = (1.08 + 0.97 * haze + 0.12 * haze**2) * np.asarray(above, dtype=float)
    beam_depth = 0.33 + 1.82 * haze
    beam_power = 0.4557 + 0.5057 * haze - 0.7565 * haze**2
    sky_depth = 2.9457 - 5.6546 * haze + 15.366 * haze**2 - 20.43 * haze**3 + 11.39 * haze**4
    sky_power = 0.116 + 0.63 * haze - 0.337 * haze**2
    beam = strength * np.exp(-beam_depth / height**beam_power)
    return beam, strength * np.exp(-sky_depth / height**sky_power)


def extraterrestrial(day: ArrayLike) -> NDArray[np.float64]:
    """Beam above the air by day of the year (1 to 365), same shape [W/m2].

    Source: Spencer (1971), Fourier series representation of the position of the sun, Search 2:172.
    """
    angle = 2 * np.pi * (np.asarray(day, dtype=float) - 1) / 365
    once = 0.034221 * np.cos(angle) + 0.00128 * np.sin(angle)
    twice = 0.000719 * np.cos(2 * angle) + 0.000077 * np.sin(2 * angle)
    return SOLAR_CONSTANT * (1.00011 + once + twice)


def level_light(latitude: float) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Mean beam and diffuse light of a cloudless day on open level ground (month,) [MJ/m2]."""
    path = sun_path(float(latitude))
    beam, diffuse = clear_sky(path.elevation, extraterrestrial(path.day))
    daily = path.step * JOULES / DAYS
    level = beam * np.sin(np.radians(path.elevation))
    return (
        np.bincount(path.month, level, 12) * daily,
        np.bincount(path.month, diffuse, 12) * daily,
    )


def normals(slope: ArrayLike, aspect: ArrayLike) -> NDArray[np.float64]:
    """Unit vectors square to the ground (place, 3): east, north, up.

    `slope` rise over run [1] and `aspect` downhill [degrees] (place,), NaN where level.

    >>> normals([1.0], [180.0]).round(3).tolist()  # 45 degrees to the south
    [[0.0, -0.707, 0.707]]
    """
    tilt = np.arctan(np.asarray(slope, dtype=float))
    toward = np.radians(np.where(tilt == 0, 0.0, aspect))
    level = np.sin(tilt)
    return np.stack([level * np.sin(toward), level * np.cos(toward), np.cos(tilt)], axis=-1)


def incidence(
    facing: NDArray[np.float64], elevation: ArrayLike, bearing: ArrayLike
) -> NDArray[np.float64]:
    """Cosine of the angle between the beam and the ground's normal (place, sun), 0 from behind.

    `facing` (place, 3) from `normals`; `elevation`, `bearing` (sun,) [degrees].
    """
    height, toward = np.radians(elevation), np.radians(bearing)
    level = np.cos(height)
    sun = np.stack([level * np.sin(toward), level * np.cos(toward), np.sin(height)])
    return np.maximum(facing @ sun, 0)


def mean_directions(
    patches: SunPatches, worth: NDArray[np.float64]
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Mean elevation and bearing of the sun while in each patch (patch,) [degrees]; 0 if never.

    `worth` (sample,) weighs the samples, by their beam for example.
    """
    path, sky = patches.path, patches.sky
    weight = np.maximum(np.bincount(patches.patch, worth, patches.size), 1e-12)
    elevation = np.bincount(patches.patch, worth * path.elevation, patches.size) / weight
    middle = sky.circle.bearings[sky.column]
    aside = worth * ((path.bearing - middle[patches.patch] + 180) % 360 - 180)
    return elevation, (middle + np.bincount(patches.patch, aside, patches.size) / weight) % 360


def _clear_beam(patches: SunPatches) -> NDArray[np.float64]:
    """Clear-sky beam of every sample (sample,) [W/m2]."""
    return clear_sky(patches.path.elevation, extraterrestrial(patches.path.day))[0]
