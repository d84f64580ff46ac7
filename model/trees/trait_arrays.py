"""The traits of chosen options as arrays, so that the land can be judged for all at once."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from model.trees.catalogue import Catalogue
from model.trees.option import Option
from model.trees.vocabulary import BLOSSOM_STAGES, VISITS

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Traits:
    """Traits of the options, in their order; NaN or an empty word where not known.

    Sizes are of the full-grown tree on ordinary soil, shape (3, option): low, typical, high [m].
    Everything else has shape (option,).
    """

    options: tuple[Option, ...]
    height: Floats  # (3, option) [m]
    spread: Floats  # (3, option) [m]
    poor_soil: Floats  # size on poor soil against ordinary soil [1]
    rich_soil: Floats  # size on rich soil against ordinary soil [1]
    growth_rate: Floats  # [1/yr]
    growth_power: Floats  # [1]
    years_to_crop: Floats  # [yr]
    chill_need: Floats  # [portions]
    heat_need: Floats  # [C.h] growing degree hours of the growing season
    july_temperature: Floats  # [C] mean of the warmest month needed to ripen
    cold_limit: Floats  # [C] lowest winter temperature borne
    rain_low: Floats  # [mm/yr] borne
    rain_high: Floats  # [mm/yr] borne
    rain_best_low: Floats  # [mm/yr] best
    rain_best_high: Floats  # [mm/yr] best
    visits: Floats  # [1/yr] of a mature tree
    sun_need: Floats  # [h/day] least in summer
    sun_good: Floats  # [h/day] for a good crop
    ph_low: Floats  # best
    ph_high: Floats  # best
    ph_borne_low: Floats
    ph_borne_high: Floats
    soil_depth_min: Floats  # [cm]
    soil_depth_good: Floats  # [cm]
    waterlog: Floats  # class 1 to 5, 5 bears wet ground best; the rootstock's where it has one
    drought: Floats  # class 1 to 5, 5 suffers most
    wind: Floats  # class 1 to 5, 5 suffers most
    wet_disease: Floats  # class 1 to 5, 5 suffers most
    browse: Floats  # class 1 to 5, 5 is eaten most
    bloom_day: Floats  # [day of year] full bloom at 52 N, near sea level
    bloom_length: Floats  # [days]
    frost_10: Floats  # (stage, option) [C] that kills 10 % of buds, bloom, fruitlets
    frost_90: Floats  # (stage, option) [C] that kills 90 %
    flower_group: Floats  # in the species' own scheme
    triploid: NDArray[np.bool_]
    self_fertile: tuple[str, ...]  # yes, partly, no
    pollination: tuple[str, ...]  # insects, wind, none needed
    incompatible_with: tuple[tuple[str, ...], ...]
    s_alleles: tuple[str, ...]
    pick_first: Floats  # [day of year], northern hemisphere
    pick_last: Floats  # [day of year], northern hemisphere
    mycorrhiza: tuple[str, ...]


_OF_ROOTSTOCK = ("poor_soil", "rich_soil", "growth_rate", "growth_power", "years_to_crop")
_OF_CULTIVAR = (
    *("chill_need", "heat_need", "july_temperature", "cold_limit", "rain_low", "rain_high"),
    *("rain_best_low", "rain_best_high", "sun_need", "sun_good", "ph_low", "ph_high"),
    *("ph_borne_low", "ph_borne_high", "soil_depth_min", "soil_depth_good", "drought", "wind"),
    *("wet_disease", "browse", "bloom_length", "flower_group", "pick_first", "pick_last"),
)
_WORDS = ("self_fertile", "pollination", "s_alleles", "mycorrhiza")


def traits(catalogue: Catalogue, options: Sequence[Option]) -> Traits:
    """The traits of the options, sizes with the cultivar's vigour included."""
    own = _Numbers(catalogue, options)
    vigour = np.nan_to_num(own.cultivar("vigour"), nan=1.0)
    wet = own.rootstock("waterlog")
    plain: dict[str, Any] = {trait: own.rootstock(trait) for trait in _OF_ROOTSTOCK}
    plain |= {trait: own.cultivar(trait) for trait in _OF_CULTIVAR}
    plain |= {trait: own.words(trait) for trait in _WORDS}
    return Traits(
        options=tuple(options),
        height=own.size("height") * vigour,
        spread=own.size("spread") * vigour,
        visits=np.nansum([own.cultivar(f"visits_{work}") for work in VISITS], axis=0),
        waterlog=np.where(np.isnan(wet), own.cultivar("waterlog"), wet),
        bloom_day=_bloom_day(own),
        frost_10=np.array([own.cultivar(f"frost_10_{stage}") for stage in BLOSSOM_STAGES]),
        frost_90=np.array([own.cultivar(f"frost_90_{stage}") for stage in BLOSSOM_STAGES]),
        triploid=np.array([word == "triploid" for word in own.words("ploidy")], dtype=bool),
        incompatible_with=tuple(
            tuple(part.strip() for part in word.split(";") if part.strip())
            for word in own.words("incompatible_with")
        ),
        **plain,
    )


@dataclass(frozen=True)
class _Numbers:
    """Looks up one trait for all options."""

    catalogue: Catalogue
    options: Sequence[Option]

    def cultivar(self, trait: str) -> Floats:
        return self._column("cultivars", [(o.species, o.cultivar) for o in self.options], trait)

    def rootstock(self, trait: str) -> Floats:
        return self._column("rootstocks", [(o.rootstock, o.species) for o in self.options], trait)

    def size(self, name: str) -> Floats:
        return np.array([self.rootstock(f"{name}_{part}") for part in ("low", "typical", "high")])

    def words(self, trait: str) -> tuple[str, ...]:
        values = (
            self.catalogue.value("cultivars", (o.species, o.cultivar), trait) for o in self.options
        )
        return tuple("" if value is None else str(value.value) for value in values)

    def _column(self, table: str, keys: list[tuple[str, str]], trait: str) -> Floats:
        values = (self.catalogue.value(table, key, trait) for key in keys)
        return np.array([np.nan if value is None else value.number for value in values])


def _bloom_day(own: _Numbers) -> Floats:
    """Full bloom: the species' day, moved by the cultivar's flowering group [day of year].

    A cultivar with a day of its own keeps it.
    """
    day = own.cultivar("bloom_day")
    late = own.cultivar("flower_group") - own.cultivar("bloom_middle_group")
    shift = np.nan_to_num(late * own.cultivar("bloom_days_per_group"))
    recorded = [
        ((o.species, o.cultivar), "bloom_day") in own.catalogue.tables["cultivars"]
        for o in own.options
    ]
    return np.where(recorded, day, day + shift)
