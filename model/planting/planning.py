"""From a survey folder and an order to a plan and its files."""

import os
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from model.csv_text import csv_text
from model.opening import open_study
from model.planting.buying.bill import bill
from model.planting.buying.needs import needs
from model.planting.buying.prices import Prices, read_prices
from model.planting.candidates import candidate_places
from model.planting.dates.calendar import calendar
from model.planting.dates.ical import ical
from model.planting.effort.effort import effort
from model.planting.order import Order
from model.planting.order_file import read_order
from model.planting.picking import AS_IT_COMES, PickingSpread
from model.planting.placement import Placement
from model.planting.placement_file import (
    PLACEMENT_FILE,
    Plan,
    alternatives_table,
    placement_table,
    read_plan,
)
from model.planting.placing import alternatives, place_order, replaced
from model.planting.plan_words import plan_words
from model.study import Study
from model.survey.faults import nearest_name
from model.survey.lists import SPOTS_FILE, spots_text
from model.survey.site import Spot


@dataclass(frozen=True)
class Asked:
    """What is asked beside the order: settings, names of blocked and kept spots, time allowed."""

    budget: float | None = None
    bee_range: float | None = None
    picking: PickingSpread = AS_IT_COMES
    blocked: tuple[str, ...] = ()
    kept: tuple[str, ...] = ()
    pegs_only: bool = False
    seconds: float = 60.0


@dataclass(frozen=True)
class Planned:
    """A plan: the order placed, other ways of nearly the same worth, prices, planted days."""

    study: Study
    order: Order
    placement: Placement
    others: tuple[Placement, ...]
    prices: Prices
    planted: Mapping[int, str] = field(default_factory=dict)


def folder_plan(
    folder: str | Path, order_file: Path, plan_file: Path | None = None, asked: Asked | None = None
) -> Planned:
    """The order of a file placed on a folder's land.

    With blocked spots and a plan (the folder's placement.csv unless said) that plan is changed as
    little as may be; without blocked spots all but the kept trees is placed afresh. ValueError,
    SurveyFaults among them, for whatever of the files or names is wrong.
    """
    asked = asked or Asked()
    study = open_study(folder)
    prices = read_prices(folder, study.catalogue)
    order = read_order(study, order_file)
    order = replace(
        order,
        budget=asked.budget,
        prices=tuple(prices.of_tree(option) for option in study.options),
        bee_range=order.bee_range if asked.bee_range is None else asked.bee_range,
        picking=asked.picking,
    )
    before = _plan(study, Path(folder), plan_file) if asked.blocked or asked.kept else None
    placement = _placement(study, order, before, asked)
    left = max(asked.seconds - placement.seconds, 1.0)
    others = () if asked.blocked and before else alternatives(study, order, placement, seconds=left)
    stays = {(tree.place, tree.option) for tree in placement.trees}
    old = before.placement.trees if before else ()
    planted = {
        tree.place: before.planted[tree.place]
        for tree in old
        if before and (tree.place, tree.option) in stays and tree.place in before.planted
    }
    return Planned(study, order, placement, others, prices, planted)


def _plan(study: Study, folder: Path, plan_file: Path | None) -> Plan | None:
    path = plan_file or folder / PLACEMENT_FILE
    return read_plan(study, path) if path.is_file() else None


def _placement(study: Study, order: Order, before: Plan | None, asked: Asked) -> Placement:
    places = study.ground.places
    names = {spot: places.cells + number for number, spot in enumerate(places.spots)}
    trees = before.placement.trees if before else ()
    names |= {tree.name: tree.place for tree in trees}
    blocked = [_named(name, names) for name in asked.blocked]
    kept = [_named(name, {tree.name: tree.place for tree in trees}) for name in asked.kept]
    offered = candidate_places(study, order, between=not asked.pegs_only)
    if before and blocked:
        plan = before.placement
        return replaced(study, order, plan, blocked, kept, offered, asked.seconds)
    stays = [(tree.place, tree.option) for tree in trees if tree.place in kept]
    return place_order(study, order, offered, blocked, stays, asked.seconds)


def _named(name: str, names: Mapping[str, int]) -> int:
    if name in names:
        return names[name]
    if not names:
        raise ValueError(f"{name}: found no plan with trees in it, expected placement.csv")
    raise ValueError(
        f"{name}: found no such spot, expected a peg or a spot of the plan, "
        f"mend by {nearest_name(name, names)}"
    )


def write_plan(planned: Planned, folder: Path, winter: int) -> tuple[Path, ...]:
    """Write every file of a plan; the same plan gives the same bytes.

    placement.csv, alternatives.csv, spots.csv with a peg for each new place, shopping_list.csv,
    calendar.csv, calendar.ics and effort.csv; `winter` is the year in which the planting winter
    begins.
    """
    folder.mkdir(parents=True, exist_ok=True)
    study, placement = planned.study, planned.placement
    tasks = calendar(study, placement, winter)
    tables = {
        "placement.csv": placement_table(study, placement, planned.planted),
        "alternatives.csv": alternatives_table(study, placement, planned.others),
        "shopping_list.csv": needs(study, placement, planned.prices),
        "calendar.csv": tasks,
        "effort.csv": effort(study, placement),
    }
    contents = {name: csv_text(table).encode() for name, table in tables.items()}
    contents[SPOTS_FILE] = spots_text(pegs(study, placement)).encode()
    contents["calendar.ics"] = ical(tasks, study.site.name, winter)
    paths = tuple(folder / name for name in sorted(contents))
    for path in paths:
        _write(path, contents[path.name])
    return paths


def pegs(study: Study, placement: Placement) -> tuple[Spot, ...]:
    """The site's pegs and one more for each tree that stands at none, to be set out."""
    known = {spot.name for spot in study.site.spots}
    new = [
        Spot(tree.name, tree.x, tree.y, study.options[tree.option].label)
        for tree in placement.trees
        if tree.name not in known
    ]
    return (*study.site.spots, *new)


def said_of(planned: Planned) -> list[str]:
    """The plan in sentences, with its bill."""
    due = bill(needs(planned.study, planned.placement, planned.prices))
    return [*plan_words(planned.study, planned.order, planned.placement, planned.others), due.words]


def _write(path: Path, content: bytes) -> None:
    """Write a file at one stroke, so that a crash leaves the old one or the new."""
    part = path.with_name(f"{path.name}.part")
    with part.open("wb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())
    part.replace(path)
