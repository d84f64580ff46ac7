"""Which trees are looked at as they grow: the plan's, the chosen one, the best at each peg."""

from collections import Counter
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from model.planting.placement_file import PLACEMENT_FILE, read_plan
from model.study import Study


@dataclass(frozen=True)
class Shown:
    """One tree: what it is called, where it stands and which option it is, by number.

    `planted` is the day it was planted, None where it is planted in year 0.
    """

    label: str
    spot: str
    x: float
    y: float
    place: int
    option: int
    planted: date | None = None


def chosen(study: Study) -> tuple[Shown, ...]:
    """The chosen option at the chosen place; none where that lies outside the boundary."""
    if not study.ground.places.inside[study.place]:
        return ()
    return _named(study, [(study.place, study.option, None)])


def leaders(study: Study) -> tuple[Shown, ...]:
    """The best option at every peg where anything can stand."""
    places = study.ground.places
    best = study.leaders.option
    pegs = range(places.cells, places.x.size)
    return _named(study, [(peg, int(best[peg]), None) for peg in pegs if best[peg] >= 0])


def placed(study: Study, folder: str | Path | None) -> tuple[Shown, ...]:
    """The trees of a folder's placement.csv, none where it has none.

    Raises SurveyFaults with every fault of the file.
    """
    if folder is None or not (Path(folder) / PLACEMENT_FILE).exists():
        return ()
    plan = read_plan(study, Path(folder) / PLACEMENT_FILE)
    days = {place: date.fromisoformat(day) for place, day in plan.planted.items()}
    return _named(
        study, [(tree.place, tree.option, days.get(tree.place)) for tree in plan.placement.trees]
    )


def _named(study: Study, found: list[tuple[int, int, date | None]]) -> tuple[Shown, ...]:
    """Trees called by their cultivar, and by their place too where that is not enough."""
    places = study.ground.places
    often = Counter(study.options[option].cultivar for _, option, _ in found)
    shown = []
    for place, option, planted in found:
        spot = places.name(place).removeprefix("peg ")
        label = study.options[option].cultivar
        if often[label] > 1:
            label = f"{label} ({spot})"
        x, y = float(places.x[place]), float(places.y[place])
        shown.append(Shown(label, spot, x, y, place, option, planted))
    return tuple(shown)
