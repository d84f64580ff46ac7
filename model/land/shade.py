"""What each place sees of the sun's patches, and the direct sun that leaves.

Whatever stands in the way takes its share of the beam; the shares multiply. They are kept as
logarithms (optical depths), which add: one changed crown is taken out and put back alone.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import ArrayLike, NDArray

from model.land.covers import Cover, Crown, Screen, crown_cover, screen_slopes, slope_cover
from model.land.depths import add
from model.land.horizon import LEVEL, Relief, column_slopes
from model.land.sky import Circle, Sky
from model.land.sun_patches import ALL_MONTHS, SunPatches, sun_hours, sun_patches

CHUNK = 1500  # places at a time: what they see of one season's patches stays near the processor

Worth = Callable[[SunPatches], NDArray[np.float64]]


@dataclass(frozen=True)
class Standing:
    """All that can throw shade on a site: the ground itself (None: level) and what is on it."""

    screens: Sequence[Screen] = field(default=())
    crowns: Sequence[Crown] = field(default=())
    relief: Relief | None = None


def direct_hours(
    eyes: NDArray[np.float64], standing: Standing, latitude: float
) -> NDArray[np.float64]:
    """Direct sun at each place by month (month, place) [h a month], as if no day were cloudy.

    Parameters
    ----------
    eyes : array (place, 3) [m]
        x, y and height in the ground's datum: the ground's plus that of the crown, say 2 m.
    standing : Standing
        Half the beam for two hours counts as one hour.
    latitude : float [degrees]
        North positive.

    Returns
    -------
    array (month, place) [h]
        January first; NaN where an eye is not known.

    """
    return sunlight(eyes, standing, latitude, [sun_hours])[0]


def sunlight(
    eyes: NDArray[np.float64], standing: Standing, latitude: float, worths: Sequence[Worth]
) -> NDArray[np.float64]:
    """Several sums over the sun that reaches each place (worth, month, place), in one pass.

    Each worth gives what the patches are worth by month (month, patch): `sun_hours`,
    `morning_hours`, or any of `SunPatches.sums`. The rest as for `direct_hours`.
    """
    known = np.flatnonzero(np.isfinite(eyes).all(axis=1))
    total = np.full((len(worths), 12, len(eyes)), np.nan)
    total[:, :, known] = 0
    weights: list[NDArray[np.float32]] = []
    for part, seasons, depths in depths_by_part(eyes[known], standing, latitude):
        weights = weights or [_patch_weights(worths, patches) for patches in seasons]
        for patches, weight, depth in zip(seasons, weights, depths, strict=True):
            np.exp(np.negative(depth, out=depth), out=depth)
            # One product for all sums: many places by few sums, the way round that is quick.
            sums = (depth @ weight).T.reshape(len(worths), -1, len(depth))
            total[:, patches.months[:, None], known[part]] = sums
    return total


def _patch_weights(worths: Sequence[Worth], patches: SunPatches) -> NDArray[np.float32]:
    """What each patch is worth in every month with sun (patch, worth and month)."""
    by_month = [worth(patches)[patches.months] for worth in worths]
    return np.ascontiguousarray(np.concatenate(by_month).T, dtype=np.float32)


def views(
    eyes: NDArray[np.float64],
    standing: Standing,
    latitude: float,
    months: Sequence[int] = ALL_MONTHS,
) -> Iterator[tuple[slice, SunPatches, NDArray[np.float32]]]:
    """What places see of the sun's patches, some places and some months at a time.

    Gives the places, the patches of the months in which everything lets through the same, and
    the share of the beam that comes through (place, patch). Arguments as for `direct_hours`.
    """
    for part, seasons, depths in depths_by_part(eyes, standing, latitude, months):
        for patches, depth in zip(seasons, depths, strict=True):
            yield part, patches, np.exp(-depth)


def depths_by_part(
    eyes: NDArray[np.float64],
    standing: Standing,
    latitude: float,
    months: Sequence[int] = ALL_MONTHS,
) -> Iterator[tuple[slice, list[SunPatches], list[NDArray[np.float32]]]]:
    """Optical depth of the sun's patches (place, patch) by season, some places at a time.

    The seasons are those of `season_patches`; arguments as for `direct_hours`.
    """
    seasons = season_patches(standing, latitude, months)
    if not seasons:
        return
    used = np.any([patches.sky.used for patches in seasons], axis=0)
    for start in range(0, len(eyes), CHUNK):
        part = slice(start, start + CHUNK)
        here = eyes[part]
        depths = [np.zeros((len(here), patches.size), np.float32) for patches in seasons]
        for cover, transmission in covers(here, standing, seasons[0].sky.circle, used):
            for patches, depth in zip(seasons, depths, strict=True):
                add(depth, patches.sky, cover, transmission[patches.months[0]])
        yield part, seasons, depths


def sky_view(
    eyes: NDArray[np.float64], standing: Standing, sky: Sky, shares: ArrayLike, month: int
) -> NDArray[np.float64]:
    """Share of an even sky's light on the level that reaches each place (place,), 0 to 1.

    `sky` and `shares` (patch,) from `sky.whole_sky`, `month` 0 to 11 says what crowns let through.
    """
    seen = np.empty(len(eyes))
    for start in range(0, len(eyes), CHUNK):
        part = slice(start, start + CHUNK)
        depth = np.zeros((len(eyes[part]), len(sky.row)), np.float32)
        for cover, transmission in covers(eyes[part], standing, sky.circle, sky.used):
            add(depth, sky, cover, transmission[month])
        seen[part] = np.exp(-depth) @ np.asarray(shares)
    return seen


def beam_share(
    eyes: NDArray[np.float64], standing: Standing, elevation: float, bearing: float, month: int
) -> NDArray[np.float64]:
    """Share of the beam that reaches each place with the sun at one point (place,), 0 to 1.

    For drawing the shadows of a day and an hour: `elevation` above 0 and `bearing` [degrees] from
    `sun_position`, `month` 0 to 11 for what crowns let through then.
    """
    share = np.ones(len(eyes))
    for cover, transmission in covers(eyes, standing, Circle(bearing, 1), np.array([True])):
        hit = cover.place[(cover.low < elevation) & (elevation < cover.high)]
        share[hit] *= transmission[month]
    return share


def covers(
    eyes: NDArray[np.float64], standing: Standing, circle: Circle, used: NDArray[np.bool_]
) -> Iterator[tuple[Cover, NDArray[np.float64]]]:
    """What each thing hides from the eyes (place, 3), and its transmission (month,).

    The ground and all that is opaque count as one thing. `used` (column,) of the `circle`.
    """
    lowest = np.where(used, 0.0, 90.0)
    opaque = np.full((len(eyes), circle.count), LEVEL)
    if standing.relief is not None:
        column_slopes(standing.relief, eyes, circle, used, opaque)
    for screen in standing.screens:
        through = np.asarray(screen.transmission, dtype=float)
        slopes = np.full_like(opaque, LEVEL) if through.any() else opaque
        screen_slopes(screen, eyes, circle, used, slopes)
        if through.any():
            yield slope_cover(slopes, lowest), through
    yield slope_cover(opaque, lowest), np.zeros(12)
    for crown in standing.crowns:
        yield crown_cover(crown, eyes, circle, used), np.asarray(crown.transmission, dtype=float)


def season_patches(
    standing: Standing, latitude: float, months: Sequence[int] = ALL_MONTHS
) -> list[SunPatches]:
    """Patches of each group of months in which everything lets through the same.

    A group in which the sun never rises is left out.
    """
    groups = [sun_patches(latitude, group) for group in like_months(standing, months)]
    return [patches for patches in groups if patches.size]


def like_months(standing: Standing, months: Sequence[int] = ALL_MONTHS) -> list[tuple[int, ...]]:
    """Months in groups in which every thing lets the same share through."""
    things: list[Screen | Crown] = [*standing.screens, *standing.crowns]
    table = np.array([thing.transmission for thing in things], dtype=float).reshape(-1, 12)
    groups: dict[bytes, list[int]] = {}
    for month in months:
        groups.setdefault(table[:, month].tobytes(), []).append(month)
    return [tuple(group) for group in groups.values()]
