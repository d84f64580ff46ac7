"""Light of a cloudless sky on sloping ground: the sun's beam, the sky's light and the ground's."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from model.land.clear_sky import clear_sky, extraterrestrial
from model.land.leaf_season import DAYS
from model.land.shade import Standing, views
from model.land.sun_patches import SunPatches, sun_hours, sun_path

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
    vectors: dict[int, NDArray[np.float32]] = {}
    for part, patches, view in views(eyes, standing, latitude):
        first = int(patches.months[0])
        if first not in vectors:
            vectors[first] = beam_vectors(patches).astype(np.float32)
        for month in patches.months:
            lit = vectors[first][month].any(axis=0)
            gain = np.maximum(facing[part].astype(np.float32) @ vectors[first][month][:, lit], 0)
            beam[month, part] = np.einsum("ij,ij->i", view[:, lit], gain)
    beam *= JOULES / DAYS[:, None]
    level_beam, diffuse = level_light(latitude)
    up = facing[:, 2]
    return SlopeLight(
        beam=beam,
        sky=diffuse[:, None] * (1 + up) / 2 * np.asarray(sky_share),
        ground=(level_beam + diffuse)[:, None] * ALBEDO * (1 - up) / 2,
    )


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


def bright_hours(patches: SunPatches, full: float = 1000.0) -> NDArray[np.float64]:
    """Hours of sun by month and patch, each by its strength (month, patch) [h a month].

    An hour counts whole when the clear sky's beam brings the level ground `full` [W/m2] or more:
    the low sun of morning and evening, which a hedge or a wood on the pole side takes, counts for
    little. A worth for `shade.sunlight`.
    """
    return np.minimum(beam_vectors(patches)[:, 2] / full, sun_hours(patches))


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
    return np.maximum(facing @ sun_directions(elevation, bearing), 0)


def beam_vectors(patches: SunPatches) -> NDArray[np.float64]:
    """Clear-sky beam of each month through each patch, as a vector to the sun (month, 3, patch).

    East, north, up [Wh/m2 a month]: its product with the ground's normal is what the ground gets.
    """
    path = patches.path
    strength = clear_sky(path.elevation, extraterrestrial(path.day))[0]
    directions = sun_directions(path.elevation, path.bearing)
    return np.stack([patches.sums(strength * part) for part in directions], axis=1)


def sun_directions(elevation: ArrayLike, bearing: ArrayLike) -> NDArray[np.float64]:
    """Unit vectors to the sun (3, sun): east, north, up; `elevation`, `bearing` [degrees]."""
    height, toward = np.radians(elevation), np.radians(bearing)
    level = np.cos(height)
    return np.stack([level * np.sin(toward), level * np.cos(toward), np.sin(height)])
