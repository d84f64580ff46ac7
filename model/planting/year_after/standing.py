"""The trees of a plan that stand on the land, read from placement.csv."""

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from model.planting.placement_file import PLACEMENT_FILE, read_plan
from model.planting.year_after.days import EXPECTED, MEND, day_of
from model.study import Study
from model.survey.faults import Fault, SurveyFaults, shown

YEAR = 365.25  # [days]


@dataclass(frozen=True)
class StandingTree:
    """One tree: its peg's name, its place and option by number, and the day it was planted."""

    spot: str
    place: int
    option: int
    planted: date | None = None

    def seasons(self, on: date) -> int:
        """Growing seasons since it was planted, at least one; one where no day is known."""
        if self.planted is None:
            return 1
        return max(1, round((on - self.planted).days / YEAR))


def standing_trees(study: Study, path: str | Path) -> tuple[StandingTree, ...]:
    """The trees of a placement.csv where they stand, none where a folder has no such file.

    Raises SurveyFaults with every fault of the file.
    """
    path = Path(path)
    file = path / PLACEMENT_FILE if path.is_dir() else path
    if path.is_dir() and not file.exists():
        return ()
    plan = read_plan(study, file)
    days = {place: day_of(text) for place, text in plan.planted.items()}
    late = [place for place, day in days.items() if day is None]
    if late:
        names = {tree.place: tree.name for tree in plan.placement.trees}
        raise SurveyFaults([_wrong_date(file.name, names[at], plan.planted[at]) for at in late])
    return tuple(
        StandingTree(tree.name, tree.place, tree.option, days.get(tree.place))
        for tree in plan.placement.trees
    )


def _wrong_date(name: str, spot: str, found: str) -> Fault:
    return Fault(name, None, "planted", f"{shown(found)} at {shown(spot)}", EXPECTED, MEND)
