"""The traits a catalogue may hold: their units, bounds and words."""

from dataclasses import dataclass
from math import inf


@dataclass(frozen=True)
class Trait:
    """One trait: its label on a page, its unit, and what values it accepts.

    A trait with `choices` takes one of those words, one without bounds takes free text.
    """

    name: str
    label: str
    unit: str = ""
    low: float = -inf
    high: float = inf
    choices: tuple[str, ...] = ()
    numeric: bool = False


def _number(name: str, label: str, unit: str, low: float, high: float) -> Trait:
    return Trait(name, label, unit, low, high, numeric=True)


def _triple(name: str, label: str, unit: str, high: float) -> tuple[Trait, ...]:
    return tuple(
        _number(f"{name}_{part}", f"{label}, {part}", unit, 0.1, high)
        for part in ("low", "typical", "high")
    )


def _visits(work: str, label: str) -> Trait:
    return _number(f"visits_{work}", f"visits for {label}", "per yr", 0, 60)


VISITS = ("pruning", "thinning", "picking", "mowing", "mulching", "guard", "protection")
BLOSSOM_STAGES = ("buds", "bloom", "fruitlets")
WORD_CLASS = "class 1-5"
YES_PARTLY_NO = ("yes", "partly", "no")
MYCORRHIZA = ("AM", "EcM", "AM and EcM", "ericoid")

NEEDS = (
    Trait("label", "name"),
    Trait("latin", "botanical name"),
    _number("july_temperature", "mean July temperature needed to ripen", "C", 5, 30),
    _number("heat_need", "growing season heat needed to ripen", "C.h", 1000, 150000),
    _number("chill_need", "winter chill needed", "portions", 0, 120),
    _number("chill_hours_low", "winter chill, low", "h", 0, 2000),
    _number("chill_hours_high", "winter chill, high", "h", 0, 2000),
    _number("cold_limit", "lowest winter temperature borne", "C", -50, 5),
    Trait("hardiness", "hardiness class"),
    _number("rain_low", "least rain borne", "mm/yr", 0, 5000),
    _number("rain_high", "most rain borne", "mm/yr", 0, 8000),
    _number("rain_best_low", "best rain, from", "mm/yr", 0, 5000),
    _number("rain_best_high", "best rain, to", "mm/yr", 0, 8000),
    _number("sun_need", "least summer sun", "h/day", 0, 16),
    _number("sun_good", "summer sun for a good crop", "h/day", 0, 16),
    Trait("moisture", "moisture liked"),
    Trait("texture", "soil texture liked"),
    _number("soil_depth_min", "least soil depth", "cm", 0, 400),
    _number("soil_depth_good", "good soil depth", "cm", 0, 400),
    _number("ph_low", "best pH, from", "pH", 3, 10),
    _number("ph_high", "best pH, to", "pH", 3, 10),
    _number("ph_borne_low", "pH borne, from", "pH", 3, 10),
    _number("ph_borne_high", "pH borne, to", "pH", 3, 10),
    _number("waterlog", "bears wet ground (5 best)", WORD_CLASS, 1, 5),
    _number("drought", "suffers in drought (5 most)", WORD_CLASS, 1, 5),
    _number("wind", "suffers in wind (5 most)", WORD_CLASS, 1, 5),
    _number("wet_disease", "disease in a wet climate (5 most)", WORD_CLASS, 1, 5),
    _number("browse", "eaten by deer and rabbits (5 most)", WORD_CLASS, 1, 5),
    _number("bloom_day", "full bloom at 52 N, near sea level", "day of year", 1, 366),
    _number("bloom_length", "length of bloom", "days", 1, 60),
    _number("bloom_days_per_group", "later for each flowering group", "days", 0, 20),
    _number("bloom_middle_group", "flowering group of that day", "group", 1, 9),
    _number("pick_first", "first pick, northern hemisphere", "day of year", 1, 366),
    _number("pick_last", "last pick, northern hemisphere", "day of year", 1, 366),
    *(
        _number(f"frost_{share}_{stage}", f"frost that kills {share} % of {stage}", "C", -30, 0)
        for stage in BLOSSOM_STAGES
        for share in (10, 90)
    ),
    Trait("pollination", "pollinated by", choices=("insects", "wind", "none needed")),
    Trait("self_fertile", "self-fertile", choices=YES_PARTLY_NO),
    Trait("flower_group_note", "flowering group, remark"),
    _number("vigour", "vigour against the rootstock's usual size", "x", 0.3, 2),
    Trait("mycorrhiza", "mycorrhizal type", choices=MYCORRHIZA),
    _visits("pruning", "pruning"),
    _visits("thinning", "thinning"),
    _visits("picking", "picking"),
    _visits("mowing", "mowing"),
    _visits("mulching", "mulching and weeding"),
    _visits("guard", "checks of the guard"),
    _visits("protection", "nets and covers"),
)

CULTIVAR_ONLY = (
    Trait("also_called", "also called"),
    _number("flower_group", "flowering group", "group", 1, 9),
    Trait("ploidy", "ploidy", choices=("diploid", "triploid")),
    Trait("incompatible_with", "will not pollinate or be pollinated by"),
    Trait("s_alleles", "incompatibility alleles"),
    Trait("use", "use"),
    Trait("site_remark", "remark on the site"),
    Trait("scab", "scab"),
    Trait("canker", "canker"),
)

ROOTSTOCK = (
    Trait("serves", "species it serves"),
    Trait("vigour_class", "vigour class"),
    *_triple("height", "full height", "m", 40),
    *_triple("spread", "full spread", "m", 40),
    _number("growth_rate", "growth rate", "1/yr", 0.01, 2),
    _number("growth_power", "growth curve's power", "1", 0.5, 5),
    _number("poor_soil", "size on poor soil", "x", 0.2, 1),
    _number("rich_soil", "size on rich soil", "x", 1, 2),
    _number("years_to_crop", "years to first crop", "yr", 0, 30),
    Trait("stake", "staking"),
    Trait("soil", "soil"),
    _number("waterlog", "bears wet ground (5 best)", WORD_CLASS, 1, 5),
    Trait("lime", "bears lime", choices=("poor", "fair", "good")),
    Trait("incompatible_scions", "scions that do not take"),
    Trait("remark", "remark"),
)

NEIGHBOUR = (
    Trait("label", "name"),
    Trait("also_called", "also called"),
    _number("mature_height", "full height", "m", 0.5, 60),
    _number("crown_to_height", "crown spread for each metre of height", "m/m", 0.05, 3),
    _number(
        "root_reach_per_height", "feeding roots' reach for each metre of height", "m/m", 0.1, 4
    ),
    _number("root_strength", "root competition at the trunk", "0-1", 0, 1),
    _number("root_distance_recorded", "farthest root recorded", "m", 0, 100),
    _number("juglone_reach", "reach of walnut's poison", "m", 0, 40),
    Trait("evergreen", "evergreen", choices=("yes", "no")),
    Trait("mycorrhiza", "mycorrhizal type", choices=MYCORRHIZA),
    _number("transmission_leaf", "light let through in leaf", "0-1", 0, 1),
    _number("transmission_bare", "light let through when bare", "0-1", 0, 1),
)


def _by_name(*traits: Trait) -> dict[str, Trait]:
    return {trait.name: trait for trait in traits}


VOCABULARY: dict[str, dict[str, Trait]] = {
    "species": _by_name(*NEEDS),
    "rootstocks": _by_name(*ROOTSTOCK),
    "cultivars": _by_name(*CULTIVAR_ONLY, *NEEDS),
    "neighbours": _by_name(*NEIGHBOUR),
}

KEYS: dict[str, tuple[str, ...]] = {
    "species": ("species",),
    "rootstocks": ("rootstock", "species"),
    "cultivars": ("species", "cultivar"),
    "neighbours": ("neighbour",),
}
"""Columns saying whose value a row holds; a rootstock's species is blank for all it serves."""
