"""The land at a few places only, so that it can be judged anew for every figure in doubt."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import cached_property
from pathlib import Path
from typing import Any

import numpy as np

from model.ground import Ground, given
from model.ground.circles import Circles
from model.ground.frost import Frost, frost_of
from model.ground.places import Places
from model.ground.root_zones import RootZones, root_zones_of
from model.ground.soil import Soils
from model.ground.store import Store
from model.ground.walk import walk_of
from model.ground.watering import Watering, watering_of
from model.land import temperature
from model.survey.site import Site
from model.trees import Catalogue


class Unkept(Store):
    """A store that keeps nothing: what is tried once is not worth the disk."""

    def kept(self, kind: type, inputs: Any, compute: Callable[[], Any]) -> Any:  # noqa: ARG002 - as a store is asked
        """Computed anew."""
        return compute()


class NearGround(Ground):
    """The land of a site at chosen places of its grid and pegs, in their order.

    What takes the whole grid (roots in circles, walking, watering, frost) is computed over it and
    then read at the places; everything else is computed there alone.
    """

    def __init__(
        self, site: Site, catalogue: Catalogue, whole: Ground, chosen: Sequence[int] | np.ndarray
    ) -> None:
        super().__init__(site, catalogue, Unkept(Path()))
        self.whole, self.chosen = whole, np.asarray(chosen)

    def again(self, site: Site, touched: frozenset[str]) -> "NearGround":
        """The same places on a site with other figures; fields that are not touched are kept."""
        other = NearGround(site, self.catalogue, self.whole, self.chosen)
        known = {name: value for name, value in vars(self).items() if name in FIELDS}
        vars(other).update({name: field for name, field in known.items() if name not in touched})
        return other

    @cached_property
    def places(self) -> Places:
        """The chosen places; the grid they were taken from keeps its shape and edges."""
        every = self.whole.places
        at = self.chosen
        return replace(every, x=every.x[at], y=every.y[at], inside=every.inside[at])

    @cached_property
    def relief(self) -> np.ndarray:
        """Height of the ground over the whole grid (y, x) [m]."""
        return self.whole.relief

    @cached_property
    def roots(self) -> RootZones:
        """Neighbours' feeding roots."""
        roots = root_zones_of(self.site, self.catalogue, self.whole.places)
        return replace(
            roots,
            share=Circles(roots.share.table[:, self.chosen]),
            by_neighbour=roots.by_neighbour[:, self.chosen],
            juglone=roots.juglone[:, self.chosen],
        )

    @cached_property
    def walk(self) -> np.ndarray | None:
        """Walking time from the hub and back (place,) [s]."""
        if self.site.hub is None:
            return None
        return walk_of(self.site, self.site.hub, self.whole.places, self.relief)[self.chosen]

    @cached_property
    def watering(self) -> Watering | None:
        """Water that a young tree lacks, and where it comes from."""
        if "watering" in self.absent:
            return None
        few = given(self.years), given(self.evapotranspiration)
        soils = _spread_out(self.soils, self.chosen, self.whole.places.x.size)
        whole = watering_of(self.site, self.whole.places, self.relief, soils, *few)
        at = self.chosen
        return replace(
            whole,
            lacking=whole.lacking[:, :, at],
            **{n: getattr(whole, n)[at] for n in ("week", "first", "last", "fetch", "hose")},
            head=whole.head[at],
            source=whole.source[at],
        )

    @cached_property
    def frost(self) -> Frost | None:
        """Nights of every spring."""
        if self.site.weather is None:
            return None
        every = self.whole.places
        station = self.site.weather.station_altitude
        offset = temperature.station_to_place(self.whole.altitude - station)
        frost = frost_of(self.site, every, self.relief, given(self.years), offset)
        at = self.chosen
        return replace(frost, place_level=frost.place_level[at], hollow=frost.hollow[at])


def _spread_out(soils: Soils, chosen: np.ndarray, size: int) -> Soils:
    """Soils at the chosen places of so many, everywhere else as at the first of them.

    Water is reckoned soil by soil, so that few soils are soon done.
    """
    everywhere = {name: np.full(size, values[0]) for name, values in vars(soils).items()}
    for name, values in vars(soils).items():
        everywhere[name][chosen] = values
    return Soils(**everywhere)


FIELDS = frozenset(
    name
    for kind in (Ground, NearGround)
    for name, value in vars(kind).items()
    if isinstance(value, cached_property)
)
