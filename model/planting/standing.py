"""The trees of a plan that stand on the land, read from placement.csv."""

import math
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from model.study import Study
from model.survey.attribute import REQUIRED, Attribute, Wrong
from model.survey.faults import SurveyFaults, listed, nearest_name, shown
from model.survey.folder import Folder
from model.survey.settings import EAST, NORTH
from model.survey.table import Row, checked_rows

PLACEMENT_FILE = "placement.csv"
YEAR = 365.25  # [days]
COLUMNS = (
    Attribute("spot", "", REQUIRED, meaning="the peg, as spots.csv names it"),
    EAST,
    NORTH,
    Attribute("species", "", REQUIRED, meaning="as the catalogue names it"),
    Attribute("cultivar", "", REQUIRED, meaning="as the catalogue names it"),
    Attribute("rootstock", "", REQUIRED, meaning="as the catalogue names it"),
    Attribute("wish", "", "", meaning="the line of the order that it meets"),
    Attribute("score", "", math.nan, 0, 1, meaning="its score when it was placed"),
    Attribute("planted", "", "", meaning="the day it was planted; blank: last winter"),
)


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
    """The trees of a placement.csv on a study's pegs, none where a folder has no such file.

    Raises SurveyFaults with every fault of the file.
    """
    path = Path(path)
    file = path / PLACEMENT_FILE if path.is_dir() else path
    folder = Folder(file.parent)
    if path.is_dir() and not file.exists():
        return ()
    names = {(o.species, o.cultivar, o.rootstock): n for n, o in enumerate(study.options)}
    spots, first = study.ground.places.spots, dict[str, int]()
    trees = []
    for row in checked_rows(folder, file.name, COLUMNS):
        spot = row.text_of("spot")
        wrongs = {
            "spot": _wrong_spot(spot, spots) or _repeated(spot, first),
            "species": _wrong_tree(_tree(row), names),
            "planted": _wrong_date(row.text_of("planted")),
        }
        first.setdefault(spot, row.number)
        for field, wrong in wrongs.items():
            if wrong is not None:
                folder.fault(file.name, row.number, field, wrong)
        if not any(wrongs.values()):
            planted = row.text_of("planted")
            day = date.fromisoformat(planted) if planted else None
            place = study.ground.places.cells + spots.index(spot)
            trees.append(StandingTree(spot, place, names[_tree(row)], day))
    if folder.faults:
        raise SurveyFaults(folder.faults)
    return tuple(trees)


def _tree(row: Row) -> tuple[str, str, str]:
    return row.text_of("species"), row.text_of("cultivar"), row.text_of("rootstock")


def _wrong_spot(spot: str, spots: tuple[str, ...]) -> Wrong | None:
    if spot in spots:
        return None
    if not spots:
        return Wrong(shown(spot), "a peg of this land, which has none", "adding spots.csv")
    mend = f"{nearest_name(spot, spots)}, or adding the peg to spots.csv"
    return Wrong(shown(spot), listed(spots), mend)


def _repeated(spot: str, first: dict[str, int]) -> Wrong | None:
    if spot not in first:
        return None
    again = f"{shown(spot)} again, as in row {first[spot]}"
    return Wrong(again, "one tree a peg", "deleting one of the two")


def _wrong_tree(tree: tuple[str, str, str], names: dict[tuple[str, str, str], int]) -> Wrong | None:
    if tree in names:
        return None
    return Wrong(shown(" ".join(tree)), "a tree of the short list", "adding it to options.csv")


def _wrong_date(found: str) -> Wrong | None:
    try:
        if found:
            date.fromisoformat(found)
    except ValueError:
        return Wrong(shown(found), "a date such as 2027-02-13", "writing year-month-day")
    return None
