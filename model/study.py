"""The one live object: a site, its options and the choices made, through to the order of merit.

Params are choices; everything else follows from them and is computed once per change, when read:
a weight moved never runs physics, a curve dragged never measures again.
"""

from collections.abc import Sequence
from functools import lru_cache
from typing import Any

import numpy as np
import param

from model import verdict
from model.decision import merit, power_mean, tipping, weights
from model.decision.merit import Leaders
from model.decision.spread import Spread, spread
from model.decision.tipping import Tipping
from model.factors import FACTORS, GROUPS, Factor
from model.ground import Ground
from model.language import _
from model.measured import measured
from model.results import TIE, Here, Layer, judged
from model.ruling import Ruling, ruling
from model.shadows import shadows
from model.stages import cube_at, cube_of, follow, spread_out, worth_of
from model.study_file import StudyFile, WeightSet
from model.survey.site import Site
from model.trees import Catalogue, Option, Traits, traits


class Study(param.Parameterized):
    """A site under study: choices in, order of merit out."""

    options: Any = param.Parameter((), doc="The short list: a tuple of options.")
    weights = param.Array(doc="Share of each factor (factor,), together 1.")
    trade_off = param.Number(
        -1.0,
        bounds=(power_mean.LOWEST_EXPONENT, power_mean.HIGHEST_EXPONENT),
        doc="Exponent of the weighted power mean: 1 strengths make up, -10 the weakest decides.",
    )
    place = param.Integer(0, bounds=(0, None), doc="The place that is judged.")
    option = param.Integer(0, bounds=(0, None), doc="The option looked at, by its number.")
    layer = param.String("best", doc="On the map: best, option, shade or a factor's name.")
    day = param.Integer(172, bounds=(1, 365), doc="Day of the year whose shadows are drawn.")
    hour = param.Number(9.0, bounds=(0.0, 24.0), doc="Hour of the site's clock, for the shadows.")

    def __init__(
        self,
        site: Site,
        catalogue: Catalogue,
        options: Sequence[Option],
        file: StudyFile | None = None,
        ground: Ground | None = None,
    ) -> None:
        super().__init__(options=tuple(options))
        self.site, self.catalogue = site, catalogue
        self.ground = ground or Ground(site, catalogue)
        self.factors: tuple[Factor, ...] = tuple(f for f in FACTORS if not f.missing(self.ground))
        self.unjudged = tuple(
            (f.label, f.missing(self.ground)) for f in FACTORS if f.missing(self.ground)
        )
        self.families = tuple(g for g in GROUPS if any(f.group == g for f in self.factors))
        self.family_of = np.array([self.families.index(f.group) for f in self.factors])
        self.settings = {factor.name: factor.settings() for factor in self.factors}
        self.weights = weights.normalised([factor.usual_weight for factor in self.factors])
        self.weight_sets: tuple[WeightSet, ...] = ()
        self._sentence = lru_cache(maxsize=256)(self._explained)
        self._wire()
        self.place = self._first_place()
        if file is not None:
            self.use_file(file)

    def _wire(self) -> None:
        """Bind each stage to the choices and stages that make it stale, and to nothing else."""
        self._traits = follow(traits, self.catalogue, self.param.options)
        self._measures, self._rules, worths = [], [], []
        for factor in self.factors:
            settings = self.settings[factor.name]
            figures = {name: settings.param[name] for name in settings.figures()}
            measure = follow(self._measured, factor, self._traits, **figures)
            self._measures.append(measure)
            self._rules.append(follow(factor.rules_out, self.ground, self._traits, **figures))
            worths.append(follow(worth_of, measure, settings.param.curve))
        shape = follow(self._shape, self.param.options)
        self._worths = follow(spread_out, shape, *worths)
        self._ruling = follow(ruling, shape, *self._rules)
        self._cube = follow(cube_of, self.param.trade_off, self._ruling, *worths)
        self._scores = follow(merit.linear_scores, self._cube, self.param.weights)
        self._leaders = follow(merit.leaders, self._scores, self.param.trade_off, TIE)
        self._shadows = follow(shadows, self.ground, self.param.day, self.param.hour)
        weighing = (self.param.weights, self.param.trade_off)
        stages = (self._worths, self._ruling, *self._measures)
        self._here = follow(judged, self.param.place, *weighing, *stages)
        self._tips = follow(self._tipping_points, self._here, *weighing)

    def _measured(self, factor: Factor, options: Traits, **figures: Any) -> np.ndarray:
        if self.catalogue is self.ground.catalogue:
            return measured(self.ground, factor, self.options, options, figures)
        measure = factor.measure(self.ground, options, **figures)
        return np.where(self.ground.places.inside, measure, np.nan)

    def _shape(self, options: tuple[Option, ...]) -> tuple[int, int]:
        return len(options), self.ground.places.x.size

    def _first_place(self) -> int:
        """The first peg, else the middle of the grid."""
        places = self.ground.places
        return places.cells if places.spots else places.cells // 2 + places.shape[1] // 2

    @property
    def traits(self) -> Traits:
        """Traits of the options under study."""
        return self._traits.rx.value

    def measure(self, name: str) -> np.ndarray:
        """Measure of one factor (option or 1, place) in its unit."""
        return self._measures[[factor.name for factor in self.factors].index(name)].rx.value

    @property
    def measures(self) -> dict[str, np.ndarray]:
        """Measure of every factor by name, (option or 1, place) in its unit."""
        return {f.name: m.rx.value for f, m in zip(self.factors, self._measures, strict=True)}

    @property
    def desirabilities(self) -> np.ndarray:
        """How good every measure is, (factor, option, place) [0 to 1]."""
        return self._worths.rx.value

    @property
    def ruling(self) -> Ruling:
        """What is ruled out where, and why."""
        return self._ruling.rx.value

    @property
    def scores(self) -> np.ndarray:
        """Scores in Box-Cox space (option, place), NaN where ruled out; they rank as shown ones."""
        return self._scores.rx.value

    @property
    def leaders(self) -> Leaders:
        """Who leads at each place, by what score, and how many are tied there."""
        return self._leaders.rx.value

    def shown_scores(self, option: int) -> np.ndarray:
        """Score of one option at every place as people read it (place,) [0 to 1]."""
        return power_mean.inverse_box_cox(self.scores[option], self.trade_off)

    def here(self, place: int | None = None) -> Here:
        """The options at a place (the chosen one), in order of merit."""
        if place is None or place == self.place:
            return self._here.rx.value
        measures = self.measures.values()
        worths, ruled = self.desirabilities, self.ruling
        return judged(place, self.weights, self.trade_off, worths, ruled, *measures)

    def map_layer(self) -> Layer:
        """What the map shows, as `layer` says."""
        if self.layer == "best":
            led = self.leaders
            best = _("Best option at each place")
            return Layer(best, led.score, led.option, self.ruling.everywhere)
        if self.layer == "shade":
            return self._shade_layer()
        ruled = self.ruling.ruled_out[self.option]
        if self.layer == "option":
            label, values = self.options[self.option].label, self.shown_scores(self.option)
        else:
            number = [factor.name for factor in self.factors].index(self.layer)
            label, values = _(self.factors[number].label), self.desirabilities[number, self.option]
        return Layer(label, np.where(ruled, np.nan, values), self.leaders.option, ruled)

    def _shade_layer(self) -> Layer:
        """Sun and shadow at the chosen moment; nothing is ruled out by it."""
        at = self._shadows.rx.value
        none = np.zeros(at.share.size, dtype=bool)
        said = _("Sun and shadow, {when}")
        if at.elevation <= 0:
            said = _("Sun and shadow, {when}: the sun is down")
        values = np.where(self.ground.places.inside, at.share, np.nan)
        return Layer(said.format(when=at.when), values, np.full(at.share.size, -1), none)

    def members(self, block: str) -> np.ndarray:
        """The factors of a slider (factor,) bool: a factor's name, or 'family:' and a group."""
        if block.startswith("family:"):
            return self.family_of == self.families.index(block.removeprefix("family:"))
        return np.array([factor.name == block for factor in self.factors])

    @property
    def blocks(self) -> tuple[str, ...]:
        """Every slider: the factors' names, then 'family:' and each family."""
        return (*(f.name for f in self.factors), *(f"family:{name}" for name in self.families))

    def tipping(self, block: str) -> Tipping:
        """Between which shares of a slider today's leader at the chosen place stays."""
        return self._tips.rx.value[block]

    def tipping_chart(self, block: str, shares: np.ndarray) -> np.ndarray:
        """Score of each option allowed at the chosen place as a share runs, (option, share)."""
        cube = cube_at(self.here(), self.trade_off)
        return tipping.trajectories(cube, self.weights, self.members(block), shares, self.trade_off)

    def _tipping_points(
        self, here: Here, shares: np.ndarray, trade_off: float
    ) -> dict[str, Tipping]:
        cube = cube_at(here, trade_off)
        return {block: tipping.stay(cube, shares, self.members(block)) for block in self.blocks}

    def spread(self, number: int) -> Spread:
        """How one factor's measure varies over the ground, for the option looked at."""
        measure = self.measures[self.factors[number].name]
        return spread(measure[min(self.option, len(measure) - 1)])

    def explain(self, number: int, option: int, place: int) -> str:
        """One factor's figure for an option at a place, in a sentence."""
        figures = self.settings[self.factors[number].name].figures()
        return self._sentence(number, option, place, self.options, tuple(figures.items()))

    def _explained(self, number: int, option: int, place: int, *asked: Any) -> str:
        figures = dict(asked[-1])
        return self.factors[number].explain(self.ground, self.traits, option, place, **figures)

    def verdict(self) -> str:
        """What leads here, by how much, what would overturn it, what rules out the rest."""
        places = self.ground.places
        name = places.name(self.place)
        if not places.inside[self.place]:
            outside = _("At {place}: outside the boundary, so nothing is judged here.")
            return outside.format(place=name)
        here = self.here()
        several = here.allowed.size > 1
        tips = {f.label: self.tipping(f.name) for f in self.factors} if several else {}
        return verdict.verdict(here, name, [option.label for option in self.options], tips)

    def move_weight(self, block: str, share: float) -> None:
        """Give a factor or a family a share of the weight; the others keep their proportions."""
        self.weights = weights.block_moved(self.weights, self.members(block), share)

    def equal_weights(self) -> None:
        """Give every factor the same weight."""
        self.weights = weights.equal(len(self.factors))

    def use(self, weight_set: WeightSet) -> None:
        """Take the weights and trade-off of a set."""
        shares = np.array([weight_set.weights.get(f.name, 0.0) for f in self.factors])
        self.param.update(weights=weights.normalised(shares), trade_off=weight_set.trade_off)

    def use_file(self, file: StudyFile) -> None:
        """Take the choices of a study file."""
        self.weight_sets = file.weight_sets
        self.trade_off = file.trade_off
        if file.weights:
            self.use(WeightSet("", "", file.weights, file.trade_off))
        for name, values in file.settings.items():
            if name in self.settings:
                self.settings[name].param.update(**values)

    def save_weight_set(self, name: str, about: str = "") -> WeightSet:
        """Keep the present weights and trade-off as a set, in place of one of the same name."""
        shares = {f.name: float(share) for f, share in zip(self.factors, self.weights, strict=True)}
        kept = WeightSet(name, about, shares, self.trade_off)
        self.weight_sets = (*(s for s in self.weight_sets if s.name != name), kept)
        return kept

    def snapshot(self) -> dict[str, Any]:
        """All choices as plain values, for undo and for links."""
        return {
            "options": self.options,
            "weights": self.weights.copy(),
            "trade_off": self.trade_off,
            "place": self.place,
            "option": self.option,
            "layer": self.layer,
            "day": self.day,
            "hour": self.hour,
            "settings": {
                name: s.figures() | {"curve": s.curve} for name, s in self.settings.items()
            },
        }

    def restore(self, snapshot: dict[str, Any]) -> None:
        """Take back the choices of a snapshot."""
        for name, values in snapshot["settings"].items():
            self.settings[name].param.update(**values)
        self.param.update(**{name: value for name, value in snapshot.items() if name != "settings"})
