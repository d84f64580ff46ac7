"""placement.csv and alternatives.csv: a plan as tables, and a plan read again."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pandas as pd

from model.planting.candidates import place_name, placing_scores
from model.planting.placement import Placement, Planted
from model.study import Study
from model.survey.attribute import REQUIRED, Attribute, Wrong
from model.survey.faults import SurveyFaults, listed, nearest_name, shown
from model.survey.folder import Folder
from model.survey.settings import EAST, NORTH
from model.survey.table import Row, checked_rows

PLACEMENT_FILE = "placement.csv"
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
PLACEMENT = [column.name for column in COLUMNS]
# `placement` numbers the alternatives from 1, best first; `worth` is its share of the best's total;
# `says` is how it differs from the best, the same in each of its rows.
ALTERNATIVES = ["placement", "total", "worth", *PLACEMENT[:-1], "says"]

MOST_TREES = 5_000


@dataclass(frozen=True)
class Plan:
    """A placement read from a file, and the day on which the tree of each place was planted."""

    placement: Placement
    planted: Mapping[int, str]


def placement_table(
    study: Study, placement: Placement, planted: Mapping[int, str] | None = None
) -> pd.DataFrame:
    """One row a tree, with the columns of PLACEMENT; planted days by place, else blank."""
    days = planted or {}
    rows = [_row(study, tree) | {"planted": days.get(tree.place, "")} for tree in placement.trees]
    return pd.DataFrame(rows, columns=PLACEMENT)


def alternatives_table(
    study: Study, placement: Placement, others: Sequence[Placement]
) -> pd.DataFrame:
    """One row a tree of every alternative, with the columns of ALTERNATIVES."""
    rows = [
        {
            "placement": number,
            "total": other.total,
            "worth": other.total / placement.total,
            **_row(study, tree),
            "says": " ".join(other.notes),
        }
        for number, other in enumerate(others, start=1)
        for tree in other.trees
    ]
    return pd.DataFrame(rows, columns=ALTERNATIVES)


def read_plan(study: Study, path: str | Path) -> Plan:
    """The plan of a placement.csv, scored anew; a row that names no peg is found by its metres.

    Raises SurveyFaults with every fault of the file.
    """
    path = Path(path)
    folder = Folder(path.parent)
    rows: list[tuple[int, int, str]] = []
    planted, first = dict[int, str](), dict[int, int]()
    options = {(o.species, o.cultivar, o.rootstock): n for n, o in enumerate(study.options)}
    for row in checked_rows(folder, path.name, COLUMNS, MOST_TREES):
        place = _place(study, row)
        option = options.get(_names(row))
        wrongs = {
            "spot": _wrong_spot(study, row, place) or _again(row, place, first),
            "species": _wrong_tree(_names(row)) if option is None else None,
        }
        for field, wrong in wrongs.items():
            if wrong is not None:
                folder.fault(path.name, row.number, field, wrong)
        if place is None or option is None:
            continue
        first.setdefault(place, row.number)
        rows.append((place, option, row.text_of("wish")))
        if row.text_of("planted"):
            planted[place] = row.text_of("planted")
    if folder.faults:
        raise SurveyFaults(folder.faults)
    trees = _planted(study, rows)
    total = float(np.nansum([tree.score for tree in trees]))
    return Plan(Placement(tuple(trees), total, total, 0.0, False, (), study.snapshot()), planted)


def _row(study: Study, tree: Planted) -> dict[str, object]:
    option = study.options[tree.option]
    return {
        "spot": tree.name,
        "x_m": tree.x,
        "y_m": tree.y,
        "species": option.species,
        "cultivar": option.cultivar,
        "rootstock": option.rootstock,
        "wish": tree.wish,
        "score": tree.score,
    }


def _planted(study: Study, rows: Sequence[tuple[int, int, str]]) -> list[Planted]:
    """The trees of rows of place, option and wish, scored all together."""
    places = study.ground.places
    scores = placing_scores(study, np.array([place for place, _, _ in rows], dtype=int))
    return [
        Planted(
            place,
            place_name(study, place),
            float(places.x[place]),
            float(places.y[place]),
            option,
            wish,
            float(scores[option, number]),
            (),
        )
        for number, (place, option, wish) in enumerate(rows)
    ]


def _names(row: Row) -> tuple[str, str, str]:
    return row.text_of("species"), row.text_of("cultivar"), row.text_of("rootstock")


def _place(study: Study, row: Row) -> int | None:
    """The peg of that name, else the cell in which the row's metres lie, None off the site."""
    places, spot = study.ground.places, row.text_of("spot")
    if spot in places.spots:
        return places.cells + places.spots.index(spot)
    place = places.nearest(row.number_of("x_m"), row.number_of("y_m"), reach=0.0)
    far = max(
        abs(float(places.x[place]) - row.number_of("x_m")),
        abs(float(places.y[place]) - row.number_of("y_m")),
    )
    return place if far <= places.cell / 2 + 1e-6 and places.inside[place] else None


def _wrong_spot(study: Study, row: Row, place: int | None) -> Wrong | None:
    if place is not None:
        return None
    spots, spot = study.ground.places.spots, row.text_of("spot")
    expected = "a peg of spots.csv, or metres on the site"
    mend = nearest_name(spot, spots) if spots else "mending x_m and y_m"
    return Wrong(shown(spot), f"{expected}: {listed(spots)}" if spots else expected, mend)


def _again(row: Row, place: int | None, first: dict[int, int]) -> Wrong | None:
    if place is None or place not in first:
        return None
    again = f"{shown(row.text_of('spot'))} again, as in row {first[place]}"
    return Wrong(again, "one tree a place", "deleting one of the two")


def _wrong_tree(names: tuple[str, str, str]) -> Wrong:
    return Wrong(shown(" ".join(names)), "a tree of the short list", "adding it to options.csv")
