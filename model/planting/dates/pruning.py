"""When and how each fruit is pruned: the table in pruning.csv, value by value with source."""

import csv
from dataclasses import dataclass
from datetime import date
from functools import cache
from pathlib import Path

from model.planting.dates.season import Season

FILE = Path(__file__).parent / "pruning.csv"


@dataclass(frozen=True)
class Pruning:
    """One species' pruning: winter or summer, northern month and day it runs from and to."""

    season: str
    first: tuple[int, int]
    last: tuple[int, int]
    how: str
    source: str

    def dates(self, season: Season, number: int) -> tuple[date, date]:
        """When it is due in the number-th winter or summer."""
        of = season.in_winter if self.season == "winter" else season.in_summer
        return of(*self.first, number), of(*self.last, number)


@cache
def pruning_table() -> dict[str, Pruning]:
    """The pruning of every species of the catalogue."""
    with FILE.open(encoding="utf-8", newline="") as file:
        return {
            row["species"]: Pruning(
                row["season"], _day(row["first"]), _day(row["last"]), row["how"], row["source"]
            )
            for row in csv.DictReader(file)
        }


def _day(said: str) -> tuple[int, int]:
    month, day = said.split("-")
    return int(month), int(day)
