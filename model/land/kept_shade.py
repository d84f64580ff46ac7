"""Shade that is kept, so that a moved, grown or felled crown is taken out and put back alone."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from model.land.covers import Crown, crown_cover
from model.land.depths import add
from model.land.shade import Standing, Worth, depths_by_part, season_patches
from model.land.sun_patches import SunPatches


@dataclass(frozen=True)
class KeptShade:
    """Optical depth of the sun's patches from some places, season by season.

    Attributes
    ----------
    eyes : array (place, 3) [m]
    seasons : sequence of SunPatches
        Patches of the months in which everything lets through the same.
    depths : sequence of arrays (place, patch)
        One a season; `change` writes to them. Some 14 kB a place at latitude 52.

    """

    eyes: NDArray[np.float64]
    seasons: Sequence[SunPatches]
    depths: Sequence[NDArray[np.float32]]

    def sunlight(self, worths: Sequence[Worth]) -> NDArray[np.float64]:
        """Sums over the sun that reaches each place (worth, month, place), as `shade.sunlight`."""
        total = np.zeros((len(worths), 12, len(self.eyes)))
        for patches, depth in zip(self.seasons, self.depths, strict=True):
            view = np.exp(-depth)
            for k, worth in enumerate(worths):
                weights = worth(patches)[patches.months].astype(np.float32)
                total[k, patches.months] = weights @ view.T
        return total

    def change(self, before: Crown | None, after: Crown | None) -> None:
        """Take out a crown that stood there (None: none did) and put in another (None: felled)."""
        for crown, sign in ((before, -1), (after, 1)):
            if crown is not None:
                self._add(crown, sign)

    def _add(self, crown: Crown, sign: int) -> None:
        """Add a crown's depth, or take it out; ValueError where a season is no season for it."""
        through = np.asarray(crown.transmission, dtype=float)
        if any(np.ptp(through[patches.months]) > 0 for patches in self.seasons):
            raise ValueError(
                "the crown's transmission must be the same in the months "
                f"{[patches.months.tolist() for patches in self.seasons]}, got {through.tolist()}; "
                "keep the shade anew with it among what stands"
            )
        used = np.any([patches.sky.used for patches in self.seasons], axis=0)
        cover = crown_cover(crown, self.eyes, self.seasons[0].sky.circle, used)
        for patches, depth in zip(self.seasons, self.depths, strict=True):
            add(depth, patches.sky, cover, float(through[patches.months[0]]), sign)


def kept_shade(eyes: NDArray[np.float64], standing: Standing, latitude: float) -> KeptShade:
    """Shade of all that stands, kept for changes; arguments as for `shade.direct_hours`.

    Every eye must be known.
    """
    seasons = season_patches(standing, latitude)
    depths = [np.empty((len(eyes), patches.size), np.float32) for patches in seasons]
    for part, _, here in depths_by_part(eyes, standing, latitude):
        for depth, some in zip(depths, here, strict=True):
            depth[part] = some
    return KeptShade(eyes, seasons, depths)
