"""Sun and shadow among trees that grow: what stands still is reckoned once, crowns each year."""

from dataclasses import dataclass, field

import numpy as np

from model.ground.sun import CROWN, DAYS_IN_MONTH, STRONG
from model.growth.stand import Crowns, Stand
from model.land.covers import crown_cover
from model.land.depths import add
from model.land.shade import Standing, beam_share, depths_by_part
from model.land.slope_light import bright_hours
from model.land.sun_patches import SunPatches, summer_months
from model.shadows import EYE, SunAt, sun_at
from model.study import Study


@dataclass
class Light:
    """The light of a study's site with a stand of trees on it.

    `eyes` (place, 3) [m] see the shadows on the ground. The share of the beam that is left by
    ground, buildings, hedges and woods is kept for the last moment that was asked for.
    """

    study: Study
    stand: Stand
    eyes: np.ndarray = field(init=False)
    _fixed: tuple[tuple[int, float], np.ndarray] | None = field(default=None, init=False)
    _seasons: list[tuple[SunPatches, np.ndarray, np.ndarray]] | None = field(
        default=None, init=False
    )

    def __post_init__(self) -> None:
        """Set the eyes over the site's places."""
        ground = self.study.ground
        places = ground.places
        self.eyes = np.column_stack([places.x, places.y, ground.altitude + EYE])

    def shadows(self, crowns: Crowns, day: int, hour: float) -> tuple[np.ndarray, SunAt]:
        """Share of the beam that reaches each place (place,), NaN while the sun is down."""
        ground = self.study.ground
        sun = sun_at(ground, day, hour)
        if sun.elevation <= 0:
            return np.full(len(self.eyes), np.nan), sun
        if self._fixed is None or self._fixed[0] != (day, hour):
            still = Standing(ground.standing.screens, (), ground.standing.relief)
            self._fixed = (day, hour), self._beam(still, sun)
        domes = self.stand.domes(crowns)
        return self._fixed[1] * self._beam(Standing((), domes, None), sun), sun

    def _beam(self, standing: Standing, sun: SunAt) -> np.ndarray:
        return beam_share(self.eyes, standing, sun.elevation, sun.bearing, sun.month)

    def sun_hours(self, crowns: Crowns) -> np.ndarray:
        """Good sun on each tree that is planted (new,) [h a day], mean over the growing season.

        As the sunlight factor counts it: of cloudless days, at the same height over the ground,
        low sun by its strength; with all other trees as they are, the tree's own crown left out.
        """
        stand = self.stand
        months = list(summer_months(self.study.ground.latitude))
        eyes = np.column_stack([stand.x, stand.y, stand.ground + CROWN])[: stand.new]
        total = np.zeros(stand.new)
        if not stand.new:
            return total
        for patches, still, worth in self._still(eyes, months):
            depth = still.copy()
            used, month = patches.sky.used, int(patches.months[0])
            for number, dome in enumerate(stand.domes(crowns)):
                others = np.flatnonzero(np.arange(stand.new) != number)
                cover = crown_cover(dome, eyes[others], patches.sky.circle, used)
                part = depth[others]
                add(part, patches.sky, cover, float(stand.transmission[number, month]))
                depth[others] = part
            total += np.exp(-depth) @ worth
        return total / DAYS_IN_MONTH[months].sum()

    def _still(
        self, eyes: np.ndarray, months: list[int]
    ) -> list[tuple[SunPatches, np.ndarray, np.ndarray]]:
        """Depth of all that does not grow and worth of the patches, by months alike for trees."""
        if self._seasons is None:
            ground, stand = self.study.ground, self.stand
            self._seasons = []
            leaves = [tuple(column) for column in stand.transmission.T]
            for alike in _groups(leaves, months):
                still = Standing(ground.standing.screens, (), ground.standing.relief)
                for _, seasons, depths in depths_by_part(eyes, still, ground.latitude, alike):
                    worths = [
                        bright_hours(p, STRONG).sum(axis=0, dtype=np.float32) for p in seasons
                    ]
                    self._seasons += zip(seasons, depths, worths, strict=True)
        return self._seasons


def _groups(leaves: list[tuple[float, ...]], months: list[int]) -> list[tuple[int, ...]]:
    """Months in which every tree lets the same through."""
    groups: dict[tuple[float, ...], list[int]] = {}
    for month in months:
        groups.setdefault(leaves[month], []).append(month)
    return [tuple(group) for group in groups.values()]
