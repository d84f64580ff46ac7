"""What is known of moving a young tree: the table in transplanting.csv, each value sourced."""

import csv
from dataclasses import dataclass
from datetime import date
from functools import cache
from pathlib import Path

import numpy as np

from model.language import DAY_AND_YEAR, _, dated

FILE = Path(__file__).parent / "transplanting.csv"
DWARF, MIDDLING = 0.375, 0.26  # [1/yr] growth rates that part the rows on trunks


@dataclass(frozen=True)
class Window:
    """Days on which a tree may be moved, the first and the last included."""

    first: date
    last: date

    def __str__(self) -> str:
        first, last = dated(self.first, DAY_AND_YEAR), dated(self.last, DAY_AND_YEAR)
        return _("between {first} and {last}").format(first=first, last=last)


@cache
def transplanting_table() -> dict[tuple[str, str], str]:
    """Every value by key and attribute."""
    with FILE.open(encoding="utf-8", newline="") as file:
        return {(row["key"], row["attribute"]): row["value"] for row in csv.DictReader(file)}


def figure(key: str, attribute: str) -> float:
    """One number of the table."""
    return float(transplanting_table()[key, attribute])


def survival(age: float, species: str) -> float:
    """Chance that a tree lives when moved so many years after planting [0 to 1].

    Between the ages of the table in proportion, beyond them as at the nearest.
    """
    table = transplanting_table()
    known = {float(at): float(v) for (key, at), v in table.items() if key == "survival"}
    times = float(table.get(("species_factor", species), 1.0))
    return float(np.interp(age, list(known), list(known.values()))) * times


def trunk(age: float, growth_rate: float) -> float:
    """Trunk diameter of a tree so many years after planting, planted when a year old [cm].

    `growth_rate` [1/yr] is the rootstock's; where it is not known a middling one is taken.
    """
    kind = "middling"
    if growth_rate >= DWARF:
        kind = "dwarf"
    elif growth_rate < MIDDLING:
        kind = "vigorous"
    return figure("trunk", kind) * (1 + age)


def years_lost(age: float, growth_rate: float) -> float:
    """Years without growth or crop after a move, by the inch rule [yr]."""
    return trunk(age, growth_rate) / figure("check", "cm_a_year")


def next_window(on: date, latitude: float) -> Window:
    """The dormant season that is open on a day, or else the next to come."""
    season = "season_north" if latitude >= 0 else "season_south"
    (m1, d1), (m2, d2) = (_day(season, which) for which in ("move_from", "move_to"))
    for year in range(on.year - 1, on.year + 2):
        first = date(year, m1, d1)
        last = date(year + (m2 < m1), m2, d2)
        if last >= on:
            break
    return Window(max(first, on), last)


def _day(season: str, which: str) -> tuple[int, int]:
    month, day = transplanting_table()[season, which].split("-")
    return int(month), int(day)
