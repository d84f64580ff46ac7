"""The words of the command `place`: an order placed on a folder's land, or a plan changed."""

import argparse
import math
from collections.abc import Callable
from datetime import date
from pathlib import Path

from model.planting.picking import PickingSpread
from model.planting.planning import Asked

HALF_OF_YEAR = 6


def add_place(
    commands: "argparse._SubParsersAction[argparse.ArgumentParser]",
    run: Callable[[argparse.Namespace], int],
) -> None:
    """Add the command and its words."""
    place = commands.add_parser(
        "place", help="place a whole order of trees, with its list, calendar and effort"
    )
    place.add_argument("folder", type=Path)
    place.add_argument("--order", type=Path, metavar="CSV", help="in place of order.csv")
    place.add_argument("--out", type=Path, metavar="DIR", required=True)
    place.add_argument(
        "--block", action="append", default=[], metavar="SPOT",
        help="no tree here; a plan that there is already is changed as little as may be",
    )  # fmt: skip
    place.add_argument(
        "--keep", action="append", default=[], metavar="SPOT", help="the plan's tree here stays"
    )
    place.add_argument("--placement", type=Path, metavar="CSV", help="in place of placement.csv")
    place.add_argument("--pegs-only", action="store_true", help="at pegs, and nowhere between")
    place.add_argument("--budget", type=_positive, metavar="N", help="for the trees alone")
    place.add_argument("--bee-range", type=_positive, metavar="M", help="to a partner (18 m)")
    place.add_argument(
        "--picking-spread", type=_count, default=0, metavar="PARTS",
        help="a tree ripe in each of so many equal parts of the season",
    )  # fmt: skip
    place.add_argument(
        "--ripe-at-once", type=_count, metavar="TREES", help="at most so many in any fortnight"
    )
    place.add_argument("--winter", type=_count, metavar="YEAR", help="in which planting begins")
    place.add_argument("--seconds", type=_positive, default=60.0, metavar="N", help="(60)")
    place.set_defaults(command=run)


def asked_of(given: argparse.Namespace) -> Asked:
    """The settings of a command."""
    return Asked(
        budget=given.budget,
        bee_range=given.bee_range,
        picking=PickingSpread(given.ripe_at_once, given.picking_spread),
        blocked=tuple(given.block),
        kept=tuple(given.keep),
        pegs_only=given.pegs_only,
        seconds=given.seconds,
    )


def coming_winter(today: date, *, north: bool) -> int:
    """The year in which the next planting winter begins: in the north that of its December.

    >>> coming_winter(date(2027, 2, 1), north=True), coming_winter(date(2027, 9, 1), north=False)
    (2027, 2028)
    """
    return today.year if north or today.month <= HALF_OF_YEAR else today.year + 1


def _positive(text: str) -> float:
    number = float(text)
    if not (number > 0 and math.isfinite(number)):
        raise argparse.ArgumentTypeError(f"found {text}, expected a number above 0")
    return number


def _count(text: str) -> int:
    number = int(text)
    if number < 1:
        raise argparse.ArgumentTypeError(f"found {text}, expected a whole number from 1")
    return number
