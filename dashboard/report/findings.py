"""What a report tells of: a study, its plan or the leaders at its pegs, and what follows."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path

import pandas as pd

from dashboard.commands.place import HALF_OF_YEAR, coming_winter
from model.planting.buying.needs import NEEDS, needs
from model.planting.buying.prices import Prices, read_prices
from model.planting.dates.calendar import CALENDAR, calendar
from model.planting.effort.effort import EFFORT, effort
from model.planting.order import Order
from model.planting.order_file import ORDER_FILE, read_order
from model.planting.partnership import standing_partners
from model.planting.placement import Placement, Planted
from model.planting.placement_file import PLACEMENT_FILE, read_plan
from model.planting.serving import served
from model.results import Here
from model.robustness import Robustness, robustness
from model.study import Study

Say = Callable[[str], None]


@dataclass(frozen=True)
class Plan:
    """A placement with its order, prices, planting days by place and other ways of the same worth.

    `computed` says whether it was placed by the programme, or only read from a file; `outdated`
    what has changed since.
    """

    placement: Placement
    order: Order = field(default_factory=lambda: Order(()))
    prices: Prices = field(default_factory=Prices)
    planted: Mapping[int, str] = field(default_factory=dict)
    others: tuple[Placement, ...] = ()
    computed: bool = False
    outdated: tuple[str, ...] = ()


@dataclass(frozen=True)
class Spot:
    """One place of the report: the tree recommended for it, the options judged there, the verdict.

    `label` is its sign on the map, `tree` None where nothing can stand.
    """

    label: str
    name: str
    place: int
    x: float
    y: float
    tree: Planted | None
    here: Here
    verdict: str


@dataclass(frozen=True)
class Findings:
    """All that a report needs; `plan` is None where the leaders at the pegs are told instead."""

    study: Study
    plan: Plan | None
    spots: tuple[Spot, ...]
    needs: pd.DataFrame
    calendar: pd.DataFrame
    effort: pd.DataFrame
    day: date
    winter: int
    sure: tuple[Robustness, ...] = ()

    @property
    def trees(self) -> tuple[Planted, ...]:
        """The trees recommended."""
        return tuple(spot.tree for spot in self.spots if spot.tree is not None)


def findings(
    study: Study,
    plan: Plan | None,
    day: date,
    *,
    sure: bool = False,
    say: Say = lambda _words: None,
) -> Findings:
    """What a report tells of; the study's chosen place is moved about, so let it be a twin.

    With `sure` it is tried how far each choice stands, which takes a minute and more.
    """
    if plan is not None and not plan.placement.trees:
        plan = None
    spots = _planned(study, plan.placement.trees) if plan else _leaders(study)
    winter = _winter(plan.planted.values() if plan else (), day, north=study.site.latitude >= 0)
    tried = []
    for spot in spots if sure else ():
        if spot.here.allowed.size:
            say(spot.name)
            tried.append(robustness(study, spot.place))
    return Findings(
        study,
        plan,
        spots,
        needs(study, plan.placement, plan.prices) if plan else pd.DataFrame(columns=NEEDS),
        calendar(study, plan.placement, winter) if plan else pd.DataFrame(columns=CALENDAR),
        effort(study, plan.placement) if plan else pd.DataFrame(columns=EFFORT),
        day,
        winter,
        tuple(tried),
    )


def folder_plan(study: Study, folder: Path, file: Path | None = None) -> Plan | None:
    """The plan of a folder's placement.csv (or another file), None where there is none.

    Raises SurveyFaults, with every fault of a file that it reads.
    """
    path = file or folder / PLACEMENT_FILE
    if not path.is_file():
        return None
    order = read_order(study, folder) if (folder / ORDER_FILE).is_file() else Order(())
    plan = read_plan(study, path)
    trees = served(study, order, plan.placement.trees, standing_partners(study))
    placement = replace(plan.placement, trees=tuple(trees))
    return Plan(placement, order, read_prices(folder, study.catalogue), plan.planted)


def _planned(study: Study, trees: Sequence[Planted]) -> tuple[Spot, ...]:
    return tuple(
        _spot(study, f"T{number}", tree.name, tree.place, tree)
        for number, tree in enumerate(trees, start=1)
    )


def _leaders(study: Study) -> tuple[Spot, ...]:
    """Every peg with what leads there; without pegs the place that is looked at."""
    places = study.ground.places
    pegs = range(places.cells, places.x.size)
    found = []
    for number, place in enumerate(pegs or (study.place,), start=1):
        here = study.here(place)
        name, tree = places.short_name(place), None
        if here.allowed.size:
            first = int(here.allowed[0])
            x, y = float(places.x[place]), float(places.y[place])
            tree = Planted(place, name, x, y, first, "", float(here.score[first]), ())
        found.append(_spot(study, str(number), name, place, tree))
    return tuple(found)


def _spot(study: Study, label: str, name: str, place: int, tree: Planted | None) -> Spot:
    study.place = place
    x, y = (float(axis[place]) for axis in (study.ground.places.x, study.ground.places.y))
    return Spot(label, name, place, x, y, tree, study.here(), study.verdict())


def _winter(planted: Iterable[str], day: date, *, north: bool) -> int:
    """The planting winter: that in which the first tree was planted, else the coming one."""
    days = sorted(one for one in map(_day, planted) if one)
    if not days:
        return coming_winter(day, north=north)
    first = days[0]
    return first.year - (north and first.month <= HALF_OF_YEAR)


def _day(text: str) -> date | None:
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None
