"""One year of a stand: everything that the page of years says about it, asked once."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from model.ground.views import View
from model.growth.light import Light
from model.growth.room import Fixed, Meeting, fixed_of, meetings, room_left
from model.growth.shown import Shown
from model.growth.sight import share_covered
from model.growth.stand import Crowns, Stand
from model.planting.effort.bringing_water import thirst
from model.planting.placement import Planted
from model.study import Study

DRY = 1  # a dry summer, one in ten, against 0 for a median one


class Growth:
    """A stand on its site at one of the growths: what does not hang on the year is kept."""

    def __init__(self, study: Study, stand: Stand, growth: int) -> None:
        self.study, self.stand, self.growth = study, stand, growth
        self.light = Light(study, stand)
        self.last = float(stand.horizon)

    @cached_property
    def fixed(self) -> Fixed:
        """What does not grow about the trees."""
        return fixed_of(self.study, self.stand)

    @cached_property
    def meetings(self) -> tuple[Meeting, ...]:
        """Where room runs out, soonest first."""
        return meetings(self.stand, self.fixed, self.growth, self.last)

    @cached_property
    def grown(self) -> Crowns:
        """The trees in the last year."""
        return self.stand.at(self.last, self.growth)

    @cached_property
    def water(self) -> np.ndarray | None:
        """Water that each planted tree lacks in its first dry summers (tree, summer) [l]."""
        found = [thirst(self.study, _as_planted(tree)) for tree in self.stand.shown]
        litres = [drinks.litres[:, DRY] for drinks in found if drinks is not None]
        return np.array(litres) if len(litres) == len(found) and litres else None

    def at(self, year: float) -> "Year":
        """What holds in one year."""
        return Year(self, year, self.stand.at(year, self.growth))


@dataclass(frozen=True)
class Year:
    """One year: the trees as they are then."""

    of: Growth
    year: float
    crowns: Crowns

    @property
    def room(self) -> list[tuple[float, str]]:
        """Room left about each planted tree [m], and to what."""
        return room_left(self.of.stand, self.of.fixed, self.crowns.spread)

    @property
    def met(self) -> tuple[Meeting, ...]:
        """Where room has run out by now."""
        return tuple(meeting for meeting in self.of.meetings if meeting.year <= self.year)

    @property
    def sun(self) -> np.ndarray:
        """Good sun on each planted tree (tree,) [h a day of the growing season]."""
        return self.of.light.sun_hours(self.crowns)

    @property
    def covered(self) -> list[tuple[View, float]]:
        """The valued views and the share of each that the planted trees cover, 0 to 1."""
        views = self.of.study.ground.views
        return [
            (view, share_covered(view, self.of.stand, self.crowns))
            for view in (views.views if views is not None else ())
        ]

    def watering(self, tree: int) -> float | None:
        """Water a tree lacks in a dry summer that follows [l]; 0 later, None where not known."""
        summer = int(self.year + self.of.stand.ahead[0, tree] + 1e-6)
        if self.of.water is None:
            return None
        return float(self.of.water[tree, summer]) if summer < self.of.water.shape[1] else 0.0


def _as_planted(tree: Shown) -> Planted:
    """A shown tree as the reckoning of its water wants it."""
    return Planted(
        place=tree.place, name=tree.spot, x=tree.x, y=tree.y, option=tree.option,
        wish="", score=float("nan"), partners=(),
    )  # fmt: skip
