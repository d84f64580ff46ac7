"""What options are worth at places by what was seen, each reckoned once for a whole review."""

from collections.abc import Sequence
from functools import cached_property

import numpy as np

from model.planting.partnership import Tree, pollen_worths, standing_partners
from model.planting.year_after.evidence import Evidence, evidence_at
from model.planting.year_after.observations import Observation
from model.planting.year_after.rescoring import Worth, overrides, rescored, worth_at
from model.study import Study


class Worths:
    """Worth of a study's options at its places, given a year's observations."""

    def __init__(self, study: Study, observations: Sequence[Observation]) -> None:
        self.study, self.observations = study, tuple(observations)
        self._known: dict[tuple[int, int], Worth] = {}

    @cached_property
    def pollen(self) -> np.ndarray:
        """Worth of the column's pollen to the row's tree (option, option) [0 to 1]."""
        return pollen_worths(self.study)

    @cached_property
    def partners(self) -> tuple[Tree, ...]:
        """The fruit trees drawn on and round the site."""
        return standing_partners(self.study)

    def evidence(self, option: int, place: int, seasons: int = 1) -> tuple[Evidence, ...]:
        """What was seen at a place, for an option so many seasons after planting."""
        return evidence_at(self.study, place, option, self.observations, seasons)

    def worth(self, option: int, place: int) -> Worth:
        """What a place is worth to an option, and how sure that is."""
        if (option, place) not in self._known:
            seen = self.evidence(option, place)
            self._known[option, place] = worth_at(self.study, option, place, seen)
        return self._known[option, place]

    def score(self, option: int, place: int) -> float:
        """The score alone [0 to 1], NaN where the option is ruled out."""
        seen = self.evidence(option, place)
        return rescored(self.study, option, place, overrides(self.study, seen, place))
