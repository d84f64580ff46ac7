"""Hard noes put together: what is ruled out where, and the reason in words."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from model.decision import merit
from model.factors import RuleOut


@dataclass(frozen=True)
class Ruling:
    """The rule-outs of all factors.

    `first` (option, place) numbers the first reason that holds, -1 where nothing is ruled out;
    `reasons` are the sentences it numbers.
    """

    first: np.ndarray
    reasons: tuple[str, ...]

    @cached_property
    def ruled_out(self) -> np.ndarray:
        """Whether an option is ruled out at a place (option, place)."""
        return self.first >= 0

    @cached_property
    def everywhere(self) -> np.ndarray:
        """Places at which every option is ruled out (place,)."""
        return np.asarray(self.ruled_out.all(axis=0))

    @cached_property
    def bars(self) -> np.ndarray:
        """What to add to a score: nothing, or not-a-number where ruled out (option, place)."""
        return merit.bars(self.ruled_out)

    def reason(self, option: int, place: int) -> str:
        """Why an option is ruled out at a place; empty where it is not."""
        number = self.first[option, place]
        return self.reasons[number] if number >= 0 else ""


def ruling(shape: tuple[int, int], *of_factors: tuple[RuleOut, ...]) -> Ruling:
    """The rule-outs of the factors in display order, over (option, place)."""
    rules = [rule for rules in of_factors for rule in rules]
    first = np.full(shape, -1, dtype=np.int16)
    for number in reversed(range(len(rules))):
        np.copyto(first, np.int16(number), where=np.broadcast_to(rules[number].where, shape))
    return Ruling(first, tuple(rule.reason for rule in rules))
