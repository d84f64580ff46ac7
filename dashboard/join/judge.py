"""The land as phones ask about it: plain arrays, so that forty can ask at once."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from model.group.ballot import Ballot
from model.group.own_ballot import own_result
from model.language import _
from model.study import Study


@dataclass(frozen=True)
class Question:
    """What a slider asks: a factor of a family, and how much it usually counts."""

    name: str
    family: str
    label: str
    question: str
    usual: float


@dataclass(frozen=True)
class Judge:
    """What stands at a place: `worth` (factor, option) [0 to 1], `allowed` (option,) bool."""

    site: str
    place_name: str
    questions: tuple[Question, ...]
    options: tuple[str, ...]
    worth: np.ndarray
    allowed: np.ndarray
    trade_off: float

    @classmethod
    def at(cls, study: Study, place: int) -> "Judge":
        """The judge of one place of a study, whose choices it does not touch."""
        questions = tuple(
            Question(factor.name, factor.group, _(factor.label), _(factor.question), float(usual))
            for factor, usual in zip(study.factors, study.weights, strict=True)
        )
        return cls(
            site=study.site.name,
            place_name=study.ground.places.name(place),
            questions=questions,
            options=tuple(option.label for option in study.options),
            worth=study.desirabilities[:, :, place].astype(float),
            allowed=~study.ruling.ruled_out[:, place],
            trade_off=study.trade_off,
        )

    @property
    def families(self) -> tuple[str, ...]:
        """Families of the questions, in order."""
        return tuple(dict.fromkeys(one.family for one in self.questions))

    def members(self, family: str) -> tuple[Question, ...]:
        """The questions of a family."""
        return tuple(one for one in self.questions if one.family == family)

    def result(self, ballot: Ballot, whose: str = "") -> str:
        """What a ballot comes to here, in a sentence."""
        weights = np.array([ballot.weights.get(one.name, 0.0) for one in self.questions])
        allowed = self.allowed & self._wanted(ballot.options)
        named = (self.options, self.place_name, whose)
        return own_result(self.worth, allowed, weights, ballot.trade_off, *named)

    def _wanted(self, options: Sequence[str]) -> np.ndarray:
        wanted = np.array([label in options for label in self.options])
        return wanted if wanted.any() else np.ones_like(wanted)
