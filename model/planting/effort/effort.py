"""What a plan costs in walking and watering: each tree on its own, and in rounds."""

from collections.abc import Sequence

import numpy as np
import pandas as pd

from model.ground.walk import walk_of
from model.language import _, marked
from model.planting.buying.tree_names import tree_name
from model.planting.effort.bringing_water import thirst
from model.planting.effort.rounds import EXACT, shortest_round
from model.planting.effort.visits import layers, rounds, visits
from model.planting.placement import Placement, Planted
from model.study import Study

HOUR = 3600.0
ALONE = marked("all, each on its own")
TOGETHER = marked("all, in rounds")
WATER = tuple(f"water_{year}_{kind}_min" for year in (1, 2) for kind in ("median", "dry"))
EFFORT = [
    "tree", "visits", "pruning_visits", "picking_visits", "walk_there_and_back_min",
    "walking_h_a_year", *WATER, "says",
]  # fmt: skip


def effort(study: Study, placement: Placement) -> pd.DataFrame:
    """Walking and watering of a plan: a row a tree, then the plan in two rows.

    Columns: tree, visits a year of the grown tree, those for pruning and for picking, the walk
    there and back [min], walking [h a year], minutes of watering in the first and second summer of
    a median and of a dry year, and all of it in a sentence. In the last row trees that want the
    same work at the same time are gone round together. NaN where the survey gives no grounds.
    """
    trees = placement.trees
    if not trees:
        return pd.DataFrame(columns=EFFORT)
    times = walking_times(study, trees)
    asked = visits(study, trees)
    every = np.sum(list(asked.values()), axis=0)
    water = np.array([_water(study, tree) for tree in trees])
    walks = 2 * times[0, 1:]
    rows = [
        [tree_name(study, tree), every[n], asked["pruning"][n], asked["picking"][n], walks[n] / 60,
         every[n] * walks[n] / HOUR, *water[n]]
        for n, tree in enumerate(trees)
    ]  # fmt: skip
    sums = [every.sum(), asked["pruning"].sum(), asked["picking"].sum()]
    alone = float((every * walks).sum() / HOUR)
    number, together = _in_rounds(study, trees, times)
    rows.append([ALONE, *sums, np.nan, alone, *water.sum(axis=0)])
    rows.append([TOGETHER, number, *sums[1:], np.nan, together / HOUR, *water.sum(axis=0)])
    table = pd.DataFrame(rows, columns=EFFORT[:-1])
    return table.assign(says=[_sentence(row, len(trees)) for row in table.to_dict("records")])


def walking_times(study: Study, trees: Sequence[Planted]) -> np.ndarray:
    """Walking times between the house (point 0) and the trees (point, point) [s], symmetric.

    Half of the way there and back, so that a round's time is the mean of walking it either way
    round; NaN without a hub, infinite where no way leads.
    """
    site, places = study.site, study.ground.places
    times = np.zeros((len(trees) + 1, len(trees) + 1))
    if study.ground.walk is None:
        times[:] = np.nan
        return times
    at = [tree.place for tree in trees]
    times[0, 1:] = times[1:, 0] = study.ground.walk[at] / 2
    for number, tree in enumerate(trees[:-1], start=1):
        both_ways = walk_of(site, (tree.x, tree.y), places, study.ground.relief)
        times[number, number + 1 :] = times[number + 1 :, number] = both_ways[at[number:]] / 2
    return np.where(np.isnan(times), np.inf, times)


def _in_rounds(study: Study, trees: Sequence[Planted], times: np.ndarray) -> tuple[float, float]:
    """Rounds a year, and the walking of all of them [s]."""
    number, walking = 0.0, 0.0
    known: dict[tuple[int, ...], float] = {}
    for counts in rounds(study, trees).values():
        for often, who in layers(counts):
            stops = tuple(one + 1 for one in who)
            if stops not in known:
                known[stops] = shortest_round(times, stops)[0]
            number += often
            walking += often * known[stops]
    return number, walking


def _water(study: Study, tree: Planted) -> np.ndarray:
    """Minutes of watering, (first and second summer, median and dry) in a row."""
    drinks = thirst(study, tree)
    return np.full(len(WATER), np.nan) if drinks is None else drinks.minutes.ravel()


def _sentence(row: dict, trees: int) -> str:
    """One row in words."""
    walking, dry = row["walking_h_a_year"], row["water_1_dry_min"]
    water = _("watering not reckoned")
    if not np.isnan(dry):
        water = _(
            "watering {water_1_median_min:.0f} minutes in a usual first summer, "
            "{water_1_dry_min:.0f} in a dry one, then {water_2_median_min:.0f} or "
            "{water_2_dry_min:.0f}"
        ).format(**row)
    return _walking_words(row, trees).format(walking=walking, water=water, **row)


def _walking_words(row: dict, trees: int) -> str:
    """What is said of the walking of one row, its figures left open."""
    if np.isnan(row["walking_h_a_year"]):
        return _("No house is drawn, so walking is not reckoned; {water}.")
    if np.isinf(row["walking_h_a_year"]):
        return _("No way leads there from the house; {water}.")
    if row["tree"] == TOGETHER:
        if trees <= EXACT:
            return _(
                "{visits:.0f} rounds a year, each the shortest: {walking:.1f} h of walking; "
                "{water}."
            )
        return _(
            "{visits:.0f} rounds a year, each nearly the shortest: {walking:.1f} h of walking; "
            "{water}."
        )
    if row["tree"] == ALONE:
        return _("{visits:.0f} visits a year: {walking:.1f} h of walking; {water}.")
    return _(
        "{visits:.0f} visits a year once grown, {pruning_visits:g} to prune and "
        "{picking_visits:g} to pick, {walk_there_and_back_min:.1f} minutes there and back: "
        "{walking:.1f} h of walking a year; {water}."
    )
