"""The calendar of the first three years: weed, prune, check, frost watch, measure, review."""

from datetime import timedelta

import numpy as np

from model.planting.buying.tree_names import by_species, species_name
from model.planting.dates.plan_dates import PlanDates, Task
from model.planting.dates.pruning import pruning_table
from model.planting.dates.season import later
from model.planting.dates.service_cautions import line_caution

YEARS = (1, 2, 3)
LADDER_SLOPE = 10.0  # [%] from which the footing of a ladder is spoken of (common practice)
LADDERS = "Ladders tip on slopes: level the footing, keep to the maker's limits, do not work alone."
SHARP = "Sharp tools: gloves, and goggles under branches."
# Growth of the leader by which the first year is judged (common practice, no source).
GOOD_GROWTH, POOR_GROWTH = "40 to 60 cm", "20 cm"


def care_tasks(dates: PlanDates) -> list[Task]:
    """Every task from the first spring to the third autumn, watering apart."""
    tasks = [_first_fruit(dates), _review(dates)]
    for year in YEARS:
        tasks += [
            *_weeding(dates, year),
            *_checks(dates, year),
            *_pruning(dates, year),
            *_frost_watch(dates, year),
            _growth(dates, year),
        ]
    return tasks


def _weeding(dates: PlanDates, year: int) -> list[Task]:
    """Two rounds a year, as the catalogue's visits have it."""
    named, of = dates.named(dates.placement.trees), dates.season.in_summer
    how = "Keep the square metre round the stem free of grass; top up the mulch to 7.5 to 10 cm."
    return [
        Task(of(4, 16, year), of(5, 15, year), f"Weed, mulch, spring of year {year}", named, how),
        Task(of(7, 1, year), of(7, 31, year), f"Weed, summer of year {year}", named, how),
    ]


def _checks(dates: PlanDates, year: int) -> list[Task]:
    """Twice a year, as the catalogue's visits have it: after the gales and before them."""
    named = dates.named(dates.placement.trees)
    how = "Loosen ties that bite, firm what rocks, right and empty guards, look for gnawing."
    spring = dates.season.in_summer(3, 15, year), dates.season.in_summer(4, 15, year)
    autumn = dates.season.in_summer(10, 1, year), dates.season.in_summer(10, 31, year)
    return [
        Task(*spring, f"Check ties and guards, spring of year {year}", named, how),
        Task(*autumn, f"Check ties and guards, autumn of year {year}", named, how),
    ]


def _pruning(dates: PlanDates, year: int) -> list[Task]:
    """Each kind of tree at its own time; in the planting winter only what stands by then."""
    table, tasks = pruning_table(), []
    for species, trees in by_species(dates.study, dates.placement.trees).items():
        if species not in table:
            continue
        work = table[species]
        first, last = work.dates(dates.season, year)
        cautions = (SHARP, _ladders(dates, trees), line_caution(dates.study, trees))
        if work.season == "winter":
            bare = later(dates.leaf_fall, year - 1)
            buds = later(min(map(dates.last_planting, trees)), year - 1)
            first = max(first, bare)
            last = max(min(last, buds), first)
        when = f"winter {year}" if work.season == "winter" else f"summer of year {year}"
        young = " This year only form the head." if year == 1 else ""
        tasks.append(
            Task(
                *(first, last, f"Prune {species_name(dates.study, species)}, {when}"),
                *(dates.named(trees), f"{work.how[0].upper()}{work.how[1:]}.{young}"),
                " ".join(filter(None, cautions)),
                work.source,
            )
        )
    return tasks


def _ladders(dates: PlanDates, trees: list) -> str:
    """A word on ladders where the ground under a grown crown is steep."""
    slope = dates.study.measure("slope")
    steep = [
        f"{slope[min(tree.option, len(slope) - 1), tree.place]:.0f} % at {tree.name}"
        for tree in trees
        if slope[min(tree.option, len(slope) - 1), tree.place] >= LADDER_SLOPE
    ]
    return f"{LADDERS} (Slope up to {', '.join(steep)}.)" if steep else ""


def _frost_watch(dates: PlanDates, year: int) -> list[Task]:
    tasks = []
    for species, trees in by_species(dates.study, dates.placement.trees).items():
        known = [(tree, found) for tree in trees if (found := dates.flowering[tree]) is not None]
        if not known:
            continue
        first = later(min(found.danger for _, found in known), year - 1)
        last = later(max(found.safe for _, found in known), year - 1)
        bloom = later(min(found.bloom for _, found in known), year - 1)
        options = [tree.option for tree, _ in known]
        kills = float(np.max(np.nan_to_num(dates.study.traits.frost_10[1, options], nan=-np.inf)))
        below = f"Open blossom suffers from {kills:.1f} °C: " if np.isfinite(kills) else ""
        duty = "note every night that cold" if year == 1 else "cover small trees, note the night"
        how = (
            f"Full bloom about {bloom.day} {bloom:%B} in a usual year. {below}read a thermometer "
            f"at the tree after clear, still evenings; {duty} for the review."
        )
        what = f"Watch for frost, {species_name(dates.study, species)}, spring of year {year}"
        source = "flowering by chill and heat from this site's weather; temperatures: the catalogue"
        named = dates.named([tree for tree, _ in known])
        tasks.append(Task(first, last, what, named, how, source=source))
    return tasks


def _first_fruit(dates: PlanDates) -> Task:
    first, last = dates.season.in_summer(5, 15), dates.season.in_summer(6, 30)
    how = "Rub off what fruit has set: roots come first, and a crop now costs growth."
    named = dates.named(dates.placement.trees)
    return Task(first, last, "Take off the fruitlets of year 1", named, how)


def _growth(dates: PlanDates, year: int) -> Task:
    how = "Measure this year's growth of the leader with a rule, and write it down."
    if year == 1:
        how += f" {GOOD_GROWTH} is good; under {POOR_GROWTH} asks why at the review."
    first, last = dates.season.in_summer(10, 1, year), dates.season.in_summer(10, 31, year)
    named = dates.named(dates.placement.trees)
    return Task(first, last, f"Measure the leader, year {year}", named, how)


def _review(dates: PlanDates) -> Task:
    first = later(dates.leaf_fall, 1)
    last = later(min(map(dates.last_planting, dates.placement.trees)), 1)
    how = (
        "Set the year's notes (sun, standing water, growth, browsing, frost, drought) against what "
        "was expected, and decide for each tree: keep or move. After one year it moves easily, "
        "after five seldom; move it while it is bare."
    )
    named = dates.named(dates.placement.trees)
    return Task(
        *(min(first, last - timedelta(days=28)), last, "Review after the first year", named, how),
        source="Royal Horticultural Society, Trees and shrubs: moving; the rest: common practice",
    )
