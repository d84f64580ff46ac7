"""The land judged anew for every figure in doubt, a factor only where the figure touches it."""

import hashlib
from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np

from model.robustness.doubt import Doubt
from model.robustness.moved import moved_site, sized_traits
from model.robustness.near_ground import NearGround
from model.robustness.response import NODES, RULED_BELOW_ZERO, Response
from model.robustness.touched import fields_touched
from model.robustness.watched import SIZES, reads
from model.study import Study
from model.trees import Traits

Progress = Callable[[float, str], None]


def response(
    study: Study, found: Sequence[Doubt], places: Sequence[int], progress: Progress | None = None
) -> Response:
    """How the measures at places answer to the doubts, kept by the ground's own store.

    `progress` is called with the share done and what is being tried.
    """
    figures = {name: settings.figures() for name, settings in study.settings.items()}
    inputs = (
        *(_code(), replace(study.site, folder=None, absent={}), study.traits, figures),
        *(study.catalogue.tables, tuple(found), tuple(int(place) for place in places)),
    )
    return study.ground.store.kept(
        Response, inputs, lambda: Trial(study, places).response(found, progress)
    )


@cache
def _code() -> bytes:
    """Digest of the code that judges, beside the ground's, which the store knows."""
    digest = hashlib.sha256()
    for part in ("factors", "robustness"):
        for path in sorted((Path(__file__).parents[1] / part).rglob("*.py")):
            digest.update(path.read_bytes())
    return digest.digest()


class Trial:
    """The land as surveyed at a few places, ready to be judged anew."""

    def __init__(self, study: Study, places: Sequence[int]) -> None:
        self.study, self.places = study, np.asarray(places)
        self.ground = NearGround(study.site, study.catalogue, study.ground, places)
        self.traits: Traits = study.traits
        self.figures = [study.settings[factor.name].figures() for factor in study.factors]
        self.reads = [
            reads(factor, self.ground, self.traits, figures)
            for factor, figures in zip(study.factors, self.figures, strict=True)
        ]
        self.by_measure = np.array([f.name in RULED_BELOW_ZERO for f in study.factors])
        self.shape = (len(study.factors), len(study.options), len(places))
        every = np.arange(len(study.factors))
        self.measures, self.rules = self.judged(self.ground, self.traits, every)

    def response(self, found: Sequence[Doubt], progress: Progress | None) -> Response:
        """Every doubt at every node."""
        change = np.zeros((len(found), NODES.size, *self.shape), dtype=np.float32)
        flips = np.zeros((len(found), NODES.size, *self.shape[1:]), dtype=bool)
        self._try_sizes(found, change, flips)
        for number, doubt in enumerate(found):
            if progress is not None:
                progress(number / len(found), doubt.label)
            if not doubt.subject.rootstock:
                self._try(doubt, change[number], flips[number])
        base = [
            np.broadcast_to(measure[:, self.places], self.shape[1:])
            for measure in self.study.measures.values()
        ]
        return Response(np.stack(base), change, _any_of(self.rules), flips, self.by_measure)

    def _try(self, doubt: Doubt, change: np.ndarray, flips: np.ndarray) -> None:
        """One figure of the survey at every node, into its part of the response."""
        for node, z in enumerate(NODES):
            if z == 0:
                continue
            site = moved_site(self.study.site, {doubt: z})
            touched = fields_touched(self.study.site, doubt, site)
            ground = self.ground.again(site, touched)
            change[node], flips[node] = self._differences(ground, self.traits, touched)

    def _try_sizes(self, found: Sequence[Doubt], change: np.ndarray, flips: np.ndarray) -> None:
        """Sizes of all rootstocks at once at every node: an option answers to its own alone."""
        own = np.array(
            [
                [doubt.subject.rootstock == option.rootstock for option in self.study.options]
                for doubt in found
            ]
        ).reshape(len(found), self.shape[1])
        for node, z in enumerate(NODES):
            if z == 0:
                continue
            scores = {d.subject.rootstock: z for d in found if d.subject.rootstock}
            traits = sized_traits(self.traits, scores)
            moved, ruled = self._differences(self.ground, traits, SIZES)
            change[:, node] = np.where(own[:, None, :, None], moved, 0)
            flips[:, node] = own[..., None] & ruled

    def _differences(
        self, ground: NearGround, traits: Traits, touched: frozenset[str]
    ) -> tuple[np.ndarray, np.ndarray]:
        """What measures (factor, option, place) and rule-outs (option, place) change by."""
        numbers = np.array([n for n, read in enumerate(self.reads) if read & touched], dtype=int)
        change = np.zeros(self.shape)
        rules = self.rules.copy()
        if numbers.size:
            measures, rules[numbers] = self.judged(ground, traits, numbers)
            change[numbers] = np.nan_to_num(measures - self.measures[numbers])
        return change, _any_of(rules) ^ _any_of(self.rules)

    def judged(
        self, ground: NearGround, traits: Traits, numbers: np.ndarray
    ) -> tuple[np.ndarray, np.ndarray]:
        """Measures and rule-outs of some factors, (factor, option, place) each."""
        measures, rules = [], []
        for number in numbers:
            factor, figures = self.study.factors[number], self.figures[number]
            measure = factor.measure(ground, traits, **figures)
            measures.append(np.broadcast_to(measure, self.shape[1:]))
            ruled = np.zeros(self.shape[1:], dtype=bool)
            if not self.by_measure[number]:
                for rule in factor.rules_out(ground, traits, **figures):
                    ruled |= rule.where
            rules.append(ruled)
        return np.stack(measures), np.stack(rules)


def _any_of(rules: np.ndarray) -> np.ndarray:
    """What any factor rules out (option, place), of (factor, option, place)."""
    return np.asarray(rules.any(axis=0))
