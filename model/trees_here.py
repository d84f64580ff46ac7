"""Every tree of the catalogue on one land: its size, weeks, climate, soil and partners here."""

from collections.abc import Callable, Sequence
from dataclasses import astuple, dataclass

import numpy as np

from model.factors.climate_fit import NEEDS, margins
from model.factors.drainage import months_borne
from model.factors.late_frost import bloom_heat
from model.factors.pollination import fits
from model.ground import Ground
from model.ground.frost import Frost
from model.ground.partners import KIN
from model.land import bloom, seasons
from model.language import marked
from model.study import Study
from model.trees import Option, Size, Traits, full_size, traits
from model.trees.choosing import HALF_A_YEAR, found_words, needs_no_partner, uses_of

SOIL = (
    marked("stands too wet"),
    marked("too acid"),
    marked("too limy"),
    marked("too shallow"),
)
MANY = 40  # options judged at once, so that the arrays of a large land fit a small memory


@dataclass(frozen=True)
class TreesHere:
    """All options of a catalogue on the usual ground of a land; NaN where not known.

    `size` (3, option, 1) [m]; `margin` (need, option) in % of the need in a bad year, in the order
    of `climate_fit.NEEDS`, NaN where no weather is known; `soil_faults` (fault, option) bool in
    the order of `SOIL`; `bloom` (option,) [day of year] full bloom in the middle year;
    `bloom_is_here`: whether by this site's weather, else as the catalogue has it.
    """

    options: tuple[Option, ...]
    traits: Traits
    uses: tuple[str, ...]
    words: tuple[str, ...]
    size: Size
    margin: np.ndarray
    soil_faults: np.ndarray
    bloom: np.ndarray
    bloom_is_here: bool
    north: bool

    @property
    def fits_climate(self) -> np.ndarray:
        """Which options have what they need of the climate, as far as known (option,) bool."""
        return np.asarray(~(self.margin < 0).any(axis=0))

    @property
    def bears_soil(self) -> np.ndarray:
        """Which options bear the land's usual soil (option,) bool."""
        return np.asarray(~self.soil_faults.any(axis=0))

    def climate_faults(self, option: int) -> tuple[str, ...]:
        """Needs that a bad year here does not meet."""
        pairs = zip(NEEDS, self.margin[:, option], strict=True)
        return tuple(need for need, margin in pairs if margin < 0)

    def soil_words(self, option: int) -> tuple[str, ...]:
        """What of the usual soil here the option does not bear."""
        pairs = zip(SOIL, self.soil_faults[:, option], strict=True)
        return tuple(fault for fault, is_so in pairs if is_so)


def trees_here(study: Study) -> TreesHere:
    """Every option of the study's catalogue on its land.

    The usual ground is the median of the places inside the boundary.
    """
    options = study.catalogue.options()
    found = traits(study.catalogue, options)
    ground = study.ground
    days, is_here = _bloom(ground, found)
    return TreesHere(
        options=options,
        traits=found,
        uses=uses_of(study.catalogue, options),
        words=found_words(study.catalogue, options),
        size=full_size(found, [_usual(ground, ground.soils.fertility)]),
        margin=_margin(study, found),
        soil_faults=_soil_faults(study, found),
        bloom=days,
        bloom_is_here=is_here,
        north=ground.latitude >= 0,
    )


def _usual(ground: Ground, values: np.ndarray) -> float:
    """The middle value inside the boundary, NaN where none is known."""
    inside = values[ground.places.inside]
    return float(np.nanmedian(inside)) if np.isfinite(inside).any() else float("nan")


def _margin(study: Study, found: Traits) -> np.ndarray:
    """Margins of the five needs at the usual place, in a bad year (need, option) [%]."""
    climate = study.ground.climate
    if climate is None or "climate_fit" not in study.settings:
        return np.full((len(NEEDS), len(found.options)), np.nan)
    figures = study.settings["climate_fit"].figures()
    bad = figures["bad_year"]
    have = [
        _usual(study.ground, climate.at_places(np.nanquantile(of_year, bad, axis=0)))
        for of_year in (climate.chill, climate.heat, climate.coldest)
    ]
    have += [float(np.nanquantile(climate.rain, share)) for share in (bad, 1 - bad)]
    dry = np.full_like(found.rain_low, np.nan) if figures["watered"] else found.rain_low
    need = [found.chill_need, found.heat_need, found.cold_limit, dry, found.rain_high]
    return margins(np.array(have)[:, None], np.stack(need))[:, :, 0]


def _soil_faults(study: Study, found: Traits) -> np.ndarray:
    """What of the usual soil options do not bear (fault, option) bool."""
    ground = study.ground
    ph, depth = _usual(ground, ground.soils.ph), _usual(ground, ground.soils.depth)
    wet = _usual(ground, ground.wet_months)
    borne = months_borne(found.waterlog, study.settings["drainage"].figures()["months_a_class"])
    return np.stack(
        [
            wet > borne,
            ph < found.ph_borne_low,
            ph > found.ph_borne_high,
            depth < found.soil_depth_min,
        ]
    )


@dataclass(frozen=True)
class Blossom:
    """Full bloom in the middle year (option,) [days from the season's start]."""

    days: np.ndarray


def _bloom(ground: Ground, found: Traits) -> tuple[np.ndarray, bool]:
    """Full bloom of every option in the middle year [day of year], and whether by this weather."""
    frost = ground.frost
    if frost is None:
        shift = 0 if ground.latitude >= 0 else HALF_A_YEAR
        return (found.bloom_day + shift - 1) % seasons.DAYS + 1, False
    needs = (found.chill_need, found.bloom_day)
    inputs = (ground.site.weather, ground.latitude, frost.offsets, *needs)
    kept = ground.store.kept(Blossom, inputs, lambda: _blossom(frost, ground.latitude, *needs))
    start = int(bloom.flowering_season(ground.latitude)[0])
    return (start + kept.days - 1) % seasons.DAYS + 1, True


def _blossom(frost: Frost, latitude: float, chill: np.ndarray, known: np.ndarray) -> Blossom:
    """Full bloom at the land's middle warmth; NaN where not known, or not in most years."""
    middle = frost.offsets.size // 2
    gathered = bloom.Progress(frost.chill[..., middle], frost.heat[..., middle])
    stirring = bloom.first_stirring(latitude)
    pairs = np.column_stack([chill, known])
    each, of_option = np.unique(pairs, axis=0, return_inverse=True)
    days = np.full(len(each), np.nan)
    for number, (portions, day) in enumerate(each):
        if np.isfinite([portions, day]).all():
            need = bloom_heat(float(portions), float(day))
            of_year = bloom.full_bloom(gathered, portions, need, stirring)
            middle_year = np.median(np.nan_to_num(of_year, nan=np.inf))
            days[number] = middle_year if np.isfinite(middle_year) else np.nan
    return Blossom(days[of_option.ravel()])


def partners_among(here: TreesHere, study: Study, given: Sequence[Option]) -> np.ndarray:
    """How many of some options, and of the trees that stand, flower with each (option,) [number].

    A standing tree of an unknown cultivar counts as half.
    """
    kin = np.array([KIN.get(option.species, option.species) for option in here.options])
    standing = study.ground.partners
    named = {option.cultivar: option for option in here.options}
    givers: list[tuple[str, Option | None]] = [
        (KIN.get(option.species, option.species), option) for option in dict.fromkeys(given)
    ]
    givers += [(k, named.get(c)) for k, c in zip(standing.kin, standing.cultivars, strict=True)]
    count = np.zeros(kin.size)
    for of_kin, giver in givers:
        if giver is None:
            count += np.where(kin == of_kin, 0.5, 0.0)
        else:
            brought = fits(here.traits, traits(study.catalogue, [giver]))
            count += np.where(kin == of_kin, brought, 0.0)
    return count


def is_served(here: TreesHere, partners: np.ndarray) -> np.ndarray:
    """Which options get their pollen: alone, or by one partner, a triploid by two (option,)."""
    needed = np.where(here.traits.triploid, 2.0, 1.0)
    alone = needs_no_partner(here.traits.self_fertile, here.traits.pollination)
    return alone | (partners >= needed)


def partners_of_one(study: Study, option: Option) -> tuple[str, ...]:
    """Cultivars of the catalogue that flower with an option and pollinate it."""
    taker = traits(study.catalogue, [option])
    kin = KIN.get(option.species, option.species)
    species = [s for s in study.catalogue.species() if KIN.get(s, s) == kin]
    stocks = {s: study.catalogue.rootstocks_for(s) for s in species}
    others = [
        Option(s, cultivar, stocks[s][0])
        for s in species
        if stocks[s]
        for cultivar in study.catalogue.cultivars_of(s)
    ]
    return tuple(
        other.cultivar for other in others if fits(taker, traits(study.catalogue, [other]))[0] >= 1
    )


@dataclass(frozen=True)
class Judged:
    """Best score of every option over a land and over its pegs, as people read it; NaN ruled out.

    `best` (option,) at `place` (option,), which is a peg where one scores as well; `peg_score` and
    `peg` (option,) over the pegs, -1 where none is allowed.
    """

    best: np.ndarray
    place: np.ndarray
    peg_score: np.ndarray
    peg: np.ndarray


def judged_best(study: Study) -> Judged:
    """The best of every option of a study's short list."""
    scores = np.stack([study.shown_scores(number) for number in range(len(study.options))])
    scores = np.where(study.ground.places.inside, scores, np.nan)
    best, place = _best(scores)
    cells = study.ground.places.cells
    peg_score, peg = _best(scores[:, cells:])
    return Judged(best, place, peg_score, np.where(peg < 0, -1, peg + cells))


def _best(scores: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Largest score of each row and where; NaN and -1 where there is none."""
    if not scores.shape[1]:
        return np.full(len(scores), np.nan), np.full(len(scores), -1)
    filled = np.nan_to_num(scores, nan=-np.inf)
    place = filled.argmax(axis=1)
    best = np.take_along_axis(filled, place[:, None], axis=1)[:, 0]
    return np.where(np.isfinite(best), best, np.nan), np.where(np.isfinite(best), place, -1)


def judged_all(study: Study, options: Sequence[Option], progress: Callable[[int], None]) -> Judged:
    """The best of many options on a study's land by its weights and settings.

    Some at a time; `progress` is told how many are done. The study itself is left as it is.
    """
    choices = {k: v for k, v in study.snapshot().items() if k not in ("options", "option")}
    parts = []
    for start in range(0, len(options), MANY):
        some = Study(
            study.site, study.catalogue, options[start : start + MANY], ground=study.ground
        )
        some.restore(choices)
        parts.append(judged_best(some))
        progress(min(start + MANY, len(options)))
    return Judged(*(np.concatenate(columns) for columns in zip(*map(astuple, parts), strict=True)))
