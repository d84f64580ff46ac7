"""The calendar of the first three years: weed, prune, check, frost watch, measure, review."""

from datetime import date, timedelta

import numpy as np

from model.language import _, dated, figure, marked
from model.planting.buying.tree_names import by_species, species_name
from model.planting.dates.plan_dates import PlanDates, Task
from model.planting.dates.pruning import pruning_table
from model.planting.dates.season import later
from model.planting.dates.service_cautions import line_caution

YEARS = (1, 2, 3)
LADDER_SLOPE = 10.0  # [%] from which the footing of a ladder is spoken of (common practice)
LADDERS = marked(
    "Ladders tip on slopes: level the footing, keep to the maker's limits, do not work alone."
)
SHARP = marked("Sharp tools: gloves, and goggles under branches.")


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
    how = _("Keep the square metre round the stem free of grass; top up the mulch to 7.5 to 10 cm.")
    spring = _("Weed, mulch, spring of year {year}").format(year=year)
    summer = _("Weed, summer of year {year}").format(year=year)
    return [
        Task(of(4, 16, year), of(5, 15, year), spring, named, how),
        Task(of(7, 1, year), of(7, 31, year), summer, named, how),
    ]


def _checks(dates: PlanDates, year: int) -> list[Task]:
    """Twice a year, as the catalogue's visits have it: after the gales and before them."""
    named = dates.named(dates.placement.trees)
    how = _("Loosen ties that bite, firm what rocks, right and empty guards, look for gnawing.")
    spring = dates.season.in_summer(3, 15, year), dates.season.in_summer(4, 15, year)
    autumn = dates.season.in_summer(10, 1, year), dates.season.in_summer(10, 31, year)
    what = (
        _("Check ties and guards, spring of year {year}").format(year=year),
        _("Check ties and guards, autumn of year {year}").format(year=year),
    )
    return [Task(*spring, what[0], named, how), Task(*autumn, what[1], named, how)]


def _pruning(dates: PlanDates, year: int) -> list[Task]:
    """Each kind of tree at its own time; in the planting winter only what stands by then."""
    table, tasks = pruning_table(), []
    for species, trees in by_species(dates.study, dates.placement.trees).items():
        if species not in table:
            continue
        work = table[species]
        first, last = work.dates(dates.season, year)
        cautions = (_(SHARP), _ladders(dates, trees), line_caution(dates.study, trees))
        if work.season == "winter":
            bare = later(dates.leaf_fall, year - 1)
            buds = later(min(map(dates.last_planting, trees)), year - 1)
            first = max(first, bare)
            last = max(min(last, buds), first)
        what = _("Prune {tree}, summer of year {year}")
        if work.season == "winter":
            what = _("Prune {tree}, winter {year}")
        how = _(work.how)
        young = [_("This year only form the head.")] if year == 1 else []
        tasks.append(
            Task(
                *(first, last, what.format(tree=species_name(dates.study, species), year=year)),
                *(dates.named(trees), " ".join([f"{how[0].upper()}{how[1:]}.", *young])),
                " ".join(filter(None, cautions)),
                _(work.source),
            )
        )
    return tasks


def _ladders(dates: PlanDates, trees: list) -> str:
    """A word on ladders where the ground under a grown crown is steep."""
    slope = dates.study.measure("slope")
    at = _("{slope:.0f} % at {place}")
    steep = [
        at.format(slope=slope[min(tree.option, len(slope) - 1), tree.place], place=tree.name)
        for tree in trees
        if slope[min(tree.option, len(slope) - 1), tree.place] >= LADDER_SLOPE
    ]
    if not steep:
        return ""
    return f"{_(LADDERS)} {_('(Slope up to {slopes}.)').format(slopes=', '.join(steep))}"


def _frost_watch(dates: PlanDates, year: int) -> list[Task]:
    tasks = []
    for species, trees in by_species(dates.study, dates.placement.trees).items():
        known = [(tree, found) for tree in trees if (found := dates.flowering[tree]) is not None]
        if not known:
            continue
        first = later(min(found.danger for _tree, found in known), year - 1)
        last = later(max(found.safe for _tree, found in known), year - 1)
        bloom = later(min(found.bloom for _tree, found in known), year - 1)
        options = [tree.option for tree, _found in known]
        kills = float(np.max(np.nan_to_num(dates.study.traits.frost_10[1, options], nan=-np.inf)))
        what = _("Watch for frost, {tree}, spring of year {year}")
        what = what.format(tree=species_name(dates.study, species), year=year)
        source = _(
            "flowering by chill and heat from this site's weather; temperatures: the catalogue"
        )
        named = dates.named([tree for tree, _found in known])
        tasks.append(Task(first, last, what, named, _watching(bloom, kills, year), source=source))
    return tasks


def _watching(bloom: date, kills: float, year: int) -> str:
    """How a night of frost is watched for; `kills` [C] NaN or infinite where not known."""
    said = [_("Full bloom about {day} in a usual year.").format(day=dated(bloom))]
    if np.isfinite(kills):
        below = _("Open blossom suffers from {degrees} °C:")
        said.append(below.format(degrees=figure(kills, ".1f")))
    duty = _(
        "read a thermometer at the tree after clear, still evenings; cover small trees, note the "
        "night for the review."
    )
    if year == 1:
        duty = _(
            "read a thermometer at the tree after clear, still evenings; note every night that "
            "cold for the review."
        )
    return " ".join([*said, duty])


def _first_fruit(dates: PlanDates) -> Task:
    first, last = dates.season.in_summer(5, 15), dates.season.in_summer(6, 30)
    how = _("Rub off what fruit has set: roots come first, and a crop now costs growth.")
    named = dates.named(dates.placement.trees)
    return Task(first, last, _("Take off the fruitlets of year 1"), named, how)


def _growth(dates: PlanDates, year: int) -> Task:
    how = _("Measure this year's growth of the leader with a rule, and write it down.")
    if year == 1:
        # Growth by which the first year is judged: common practice, no source.
        how = f"{how} {_('40 to 60 cm is good; under 20 cm asks why at the review.')}"
    first, last = dates.season.in_summer(10, 1, year), dates.season.in_summer(10, 31, year)
    named = dates.named(dates.placement.trees)
    what = _("Measure the leader, year {year}").format(year=year)
    return Task(first, last, what, named, how)


def _review(dates: PlanDates) -> Task:
    first = later(dates.leaf_fall, 1)
    last = later(min(map(dates.last_planting, dates.placement.trees)), 1)
    how = _(
        "Set the year's notes (sun, standing water, growth, browsing, frost, drought) against what "
        "was expected, and decide for each tree: keep or move. After one year it moves easily, "
        "after five seldom; move it while it is bare."
    )
    named = dates.named(dates.placement.trees)
    return Task(
        *(min(first, last - timedelta(days=28)), last),
        *(_("Review after the first year"), named, how),
        source=_(
            "Royal Horticultural Society, Trees and shrubs: moving; the rest: common practice"
        ),
    )
