"""What every line of a planting calendar is dated by: the season, the bare weeks, the blossom."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date
from functools import cached_property

from model.language import _, marked
from model.planting.buying.tree_names import tree_names
from model.planting.dates.dormancy import Dormancy, dormancy
from model.planting.dates.flowering import Flowering, flowering
from model.planting.dates.season import Season
from model.planting.placement import Placement, Planted
from model.study import Study

# Bare-root season where no weather is known: late October to mid-March in Britain, late April to
# mid-September in the south (Royal Horticultural Society, Trees and shrubs: moving; the south
# shifted by half a year, common practice).
USUAL_FIRST, USUAL_LAST = (11, 1), (3, 15)
PRACTICE = marked("common practice, no source")
LEAST_DAYS = 28  # [days] of the bare season that even the earliest flowerer is given


@dataclass(frozen=True)
class Task:
    """One line of the calendar, its words in the language in use."""

    first: date
    last: date
    what: str
    trees: str
    how: str
    caution: str = ""
    source: str = field(default_factory=lambda: _(PRACTICE))


@dataclass(frozen=True)
class PlanDates:
    """A plan, the winter it is planted in, and the dates that follow from its land."""

    study: Study
    placement: Placement
    season: Season

    @cached_property
    def dormancy(self) -> Dormancy | None:
        """The bare season by this site's weather."""
        return dormancy(self.study.ground.years) if self.study.ground.years else None

    @cached_property
    def leaf_fall(self) -> date:
        """From when trees stand bare."""
        if self.dormancy is None:
            return self.season.in_winter(*USUAL_FIRST)
        return self.season.of_day(self.dormancy.first)

    @cached_property
    def warming(self) -> date:
        """Until when trees stand bare, early flowerers apart."""
        if self.dormancy is None:
            return self.season.in_winter(*USUAL_LAST)
        return self.season.of_day(self.dormancy.last)

    @cached_property
    def flowering(self) -> dict[Planted, Flowering | None]:
        """When each tree flowers."""
        return {tree: flowering(self.study, tree, self.season) for tree in self.placement.trees}

    def last_planting(self, tree: Planted) -> date:
        """The last day to plant a tree: before its buds break in an early spring.

        Wind-pollinated trees flower long before or after their buds break, so that their blossom
        says nothing of it.
        """
        found = self.flowering[tree]
        if found is None or self.study.traits.pollination[tree.option] == "wind":
            return self.warming
        earliest = date.fromordinal(self.leaf_fall.toordinal() + LEAST_DAYS)
        return max(min(found.buds, self.warming), earliest)

    def named(self, trees: Sequence[Planted]) -> str:
        """Trees in a cell of the calendar."""
        return tree_names(self.study, self.placement, trees)
