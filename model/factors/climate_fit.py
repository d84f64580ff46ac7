"""Climate fit: has the place the chill, heat, mildness and rain that the tree needs?"""

from functools import reduce

import numpy as np
import param

from model.decision.desirability import Curve
from model.factors.factor import Factor, RuleOut, Settings
from model.ground import Ground, given
from model.language import _, figure, marked
from model.trees import Traits

NEEDS = (
    marked("winter chill"),
    marked("summer heat"),
    marked("winter cold"),
    marked("rain in a dry year"),
    marked("rain in a wet year"),
)
UNITS = (
    marked("chill portions"),
    marked("degree hours"),
    "°C",
    marked("mm a year"),
    marked("mm a year"),
)
COLD, WET = NEEDS.index("winter cold"), NEEDS.index("rain in a wet year")
COLD_SCALE = 5.0  # [C] the least size of a cold limit that a margin is reckoned against


class ClimateSettings(Settings):
    """The curve over the smallest margin, and how bad a year the tree must bear."""

    curve = param.ClassSelector(
        class_=Curve, default=Curve((-40.0, 0.0, 20.0, 50.0), (0.02, 0.4, 0.85, 1.0))
    )
    bad_year = param.Number(
        0.2, bounds=(0.02, 0.5), doc="Share of years that may be worse than the one judged by [1]."
    )
    watered = param.Boolean(
        False, doc="Whether grown trees are watered too, so that a dry year's rain does not limit."
    )


def margin(need: int, supply: np.ndarray, wanted: np.ndarray) -> np.ndarray:
    """Margin of one of the `NEEDS` as % of what is wanted, (option, place).

    `supply` (place,) and `wanted` (option,) in the need's unit; what is not known gives NaN.
    Chill, heat and dry-year rain must reach what is wanted; the coldest night must stay above its
    limit, reckoned against the limit's size; wet-year rain below its limit.
    """
    want = wanted[:, None]
    if need == COLD:
        return (supply - want) * (100 / np.maximum(np.abs(want), COLD_SCALE))
    over = supply * (100 / want) - 100
    return -over if need == WET else over


def margins(supply: np.ndarray, wanted: np.ndarray) -> np.ndarray:
    """Margins of all `NEEDS` (need, option, place) [%]: `margin` of each, in their order."""
    return np.stack([margin(n, *each) for n, each in enumerate(zip(supply, wanted, strict=True))])


def _supply(ground: Ground, bad_year: float) -> np.ndarray:
    """What a bad year gives at every place, in the order of `NEEDS` (need, place)."""
    climate = given(ground.climate)
    low = [
        climate.at_places(np.nanquantile(v, bad_year, axis=0))
        for v in (climate.chill, climate.heat, climate.coldest)
    ]
    rain = [
        np.full(low[0].shape, np.nanquantile(climate.rain, q)) for q in (bad_year, 1 - bad_year)
    ]
    return np.stack(low + rain)


def _need(traits: Traits, watered: bool) -> np.ndarray:
    """What each option asks for, in the order of `NEEDS` (need, option); NaN where nothing."""
    dry = np.full_like(traits.rain_low, np.nan) if watered else traits.rain_low
    return np.stack([traits.chill_need, traits.heat_need, traits.cold_limit, dry, traits.rain_high])


def _measure(ground: Ground, traits: Traits, *, bad_year: float, watered: bool) -> np.ndarray:
    supply, need = _supply(ground, bad_year), _need(traits, watered)
    return reduce(np.fmin, (margin(n, supply[n], need[n]) for n in range(len(NEEDS))))


def _rules_out(
    ground: Ground, traits: Traits, *, bad_year: float, watered: bool
) -> tuple[RuleOut, ...]:
    cold = margin(COLD, _supply(ground, bad_year)[COLD], _need(traits, watered)[COLD])
    why = _("winter cold: one winter in {years:.0f} falls below what the tree bears")
    return (RuleOut(why.format(years=1 / bad_year), cold < 0),)


def _explain(
    ground: Ground, traits: Traits, option: int, place: int, *, bad_year: float, watered: bool
) -> str:
    supply = _supply(ground, bad_year)[:, place]
    need = _need(traits, watered)[:, option]
    tight = margins(supply[:, None], need[:, None])[:, 0, 0]
    tightest = int(np.nanargmin(tight))
    said = _(
        "Tightest: {need}, {has} {unit} in a bad year (one in {years:.0f}) against {limit} the "
        "limit: {margin} % of the need."
    )
    if tightest in (0, 1, 3):
        said = _(
            "Tightest: {need}, {has} {unit} in a bad year (one in {years:.0f}) against {limit} "
            "needed: {margin} % of the need."
        )
    return said.format(
        need=_(NEEDS[tightest]),
        has=figure(supply[tightest], ".0f"),
        unit=_(UNITS[tightest]),
        years=1 / bad_year,
        limit=figure(need[tightest], ".0f"),
        margin=figure(tight[tightest], "+.0f"),
    )


CLIMATE_FIT = Factor(
    name="climate_fit",
    label="Climate fit",
    question="Has it the chill, heat, mildness and rain here, in a bad year too?",
    group="place",
    quantity="margin",
    unit="% of need",
    decimals=0,
    needs=("climate",),
    settings=ClimateSettings,
    measure=_measure,
    rules_out=_rules_out,
    explain=_explain,
    sources=(
        "Chill: Fishman, Erez & Couvillon (1987), the Dynamic Model, J. theor. Biol. 124:473.",
        "Heat: Anderson, Richardson & Kesner (1986), growing degree hours, Acta Hort. 184:71.",
        "Needs and limits: the catalogue, value by value.",
        "Smallest of the margins: after the law of the minimum (Liebig 1855); common practice.",
    ),
)
