"""The calendar up to the day on which the trees stand: order, dig, plant, stake, guard, mulch."""

from datetime import timedelta

from model.language import _, marked, month_name
from model.planting.buying.guarding import guard
from model.planting.buying.soil_mending import mending
from model.planting.buying.staking import staking
from model.planting.buying.tree_names import by_species, species_name
from model.planting.dates.plan_dates import PlanDates, Task
from model.planting.dates.season import later
from model.planting.dates.service_cautions import (
    BEFORE_DIGGING,
    DIGGING_SOURCE,
    line_caution,
    services_near,
)
from model.planting.placement import Planted

WEATHER = marked("this site's weather; rule for bare trees: common practice, no source")
WET_MONTHS = 1.0  # a year that the root zone stands wet, from which it is said
LIME_DUST = marked(
    "Lime and sulphur dust irritate eyes, skin and lungs: goggles, gloves and mask, a still day, "
    "and what the label says."
)


def planting_tasks(dates: PlanDates) -> list[Task]:
    """Every task from the order to the mulch."""
    return [
        _order(dates),
        *_soil(dates),
        _mark(dates),
        *_plant(dates),
        *_stakes(dates),
        *_guards(dates),
        _mulch(dates),
        _drainage(dates),
    ]


def _order(dates: PlanDates) -> Task:
    season, everything = dates.season, dates.named(dates.placement.trees)
    how = _(
        "Reserve the trees bare root, and stakes, ties, guards and mulch with them: nurseries sell "
        "out of the rarer ones before leaves fall."
    )
    return Task(season.in_winter(8, 1), season.in_winter(9, 30), _("Order"), everything, how)


def _soil(dates: PlanDates) -> list[Task]:
    found = {tree: mending(dates.study, tree) for tree in dates.placement.trees}
    off = {tree: mended for tree, mended in found.items() if mended is not None}
    first, last = dates.season.in_winter(9, 1), dates.season.in_winter(10, 15)
    another = _("Choose another fruit")
    sure = _("Here {why}; test the soil to be sure.")
    tasks = [
        Task(
            *(dates.season.in_winter(8, 1), first, another, dates.named([tree])),
            *(sure.format(why=mended.why), ""),
            mended.source,
        )
        for tree, mended in off.items()
        if not mended.item
    ]
    for item in (marked("Lime"), marked("Sulphur")):
        doses = {tree: m for tree, m in off.items() if m.item == item.lower()}
        if doses:
            amounts = "; ".join(f"{tree.name} {m.amount:.2f} kg" for tree, m in doses.items())
            how = _(
                "Test the soil first. Then dig in, over a round 1 m across: {amounts}. It acts "
                "within months: test again before a second dose."
            ).format(amounts=amounts)
            source = next(iter(doses.values())).source
            named = dates.named(list(doses))
            tasks.append(Task(first, last, _(item), named, how, _(LIME_DUST), source))
    return tasks


def _mark(dates: PlanDates) -> Task:
    trees = dates.placement.trees
    near = services_near(dates.study, trees, overhead=False)
    how = _("Set a peg at every hole and walk round it once more. Ask the operators for plans.")
    if near:
        how = f"{how} {_('Drawn on the survey: {services}.').format(services='; '.join(near))}"
    first = dates.leaf_fall - timedelta(days=42)
    last = dates.leaf_fall - timedelta(days=1)
    what, caution = _("Mark the holes, look for services"), _(BEFORE_DIGGING)
    return Task(first, last, what, dates.named(trees), how, caution, _(DIGGING_SOURCE))


def _plant(dates: PlanDates) -> list[Task]:
    """One line a kind of tree, each until its own buds break."""
    tasks = []
    for species, trees in by_species(dates.study, dates.placement.trees).items():
        last = min(dates.last_planting(tree) for tree in trees)
        how = _(
            "On a day when the soil is neither frozen nor soaked: roots spread in a hole no deeper "
            "than they are, the graft a hand's breadth above the ground, firmed and watered in. "
            "Keep roots damp and covered until then."
        )
        how = " ".join(filter(None, [how, _fit_days(dates), _wet(dates, trees)]))
        first = _("Look for services first: see the task of marking the holes.")
        caution = " ".join(filter(None, [first, line_caution(dates.study, trees)]))
        what = _("Plant {tree}").format(tree=species_name(dates.study, species))
        named = dates.named(trees)
        tasks.append(Task(dates.leaf_fall, last, what, named, how, caution, _(WEATHER)))
    return tasks


def _fit_days(dates: PlanDates) -> str:
    """How many days of each bare month are fit, in words."""
    if dates.dormancy is None:
        return _("No cold season is known here, so these are the usual months.")
    shares = dates.dormancy.fit_by_month()
    said = ", ".join(f"{month_name(month)} {10 * share:.0f}" for month, share in shares.items())
    return _("Days in ten that are fit here: {months}.").format(months=said)


def _wet(dates: PlanDates, trees: list[Planted]) -> str:
    """The trees whose ground stands wet, in words."""
    months = dates.study.ground.wet_months
    each = _("{place} ({months:.0f} months)")
    wet = [
        each.format(place=tree.name, months=months[tree.place])
        for tree in trees
        if months[tree.place] >= WET_MONTHS
    ]
    if not wet:
        return ""
    return _(
        "The ground stands wet a part of the year at {places}: plant early, on a low mound, and "
        "not into a hole that keeps water overnight."
    ).format(places="; ".join(wet))


def _stakes(dates: PlanDates) -> list[Task]:
    trees = dates.placement.trees
    stakes = {tree: staking(dates.study, tree.option) for tree in trees}
    how = _(
        "Drive the stake before the tree is set, on the side the wind comes from; tie it so that "
        "the stem can thicken."
    )
    standing = Task(
        *(dates.leaf_fall, max(map(dates.last_planting, trees)), _("Stake and tie")),
        *(dates.named(trees), how, line_caution(dates.study, trees)),
        "; ".join(dict.fromkeys(stake.source for stake in stakes.values())),
    )
    tasks = [standing]
    for years in sorted({s.years for s in stakes.values() if s.years is not None}):
        going = [tree for tree in trees if stakes[tree].years == years]
        stocks = sorted({dates.study.options[tree.option].rootstock for tree in going})
        said = _("Rock the stem first: if the roots move, leave it a year ({rootstocks}).")
        tasks.append(
            Task(
                *(later(dates.leaf_fall, years), later(dates.warming, years)),
                _("Take out short stakes, winter {number}").format(number=years + 1),
                dates.named(going),
                said.format(rootstocks=", ".join(stocks)),
                source="; ".join(dict.fromkeys(stakes[tree].source for tree in going)),
            )
        )
    return tasks


def _guards(dates: PlanDates) -> list[Task]:
    called: dict[str, list[Planted]] = {}
    for tree in dates.placement.trees:
        called.setdefault(guard(dates.study, tree).called, []).append(tree)
    tasks = []
    for words, trees in called.items():
        reasons = "; ".join(dict.fromkeys(guard(dates.study, tree).why for tree in trees))
        how = _("The same day as it is planted: {guard} ({reasons}).")
        how = how.format(guard=words, reasons=reasons)
        source = guard(dates.study, trees[0]).source
        last = max(map(dates.last_planting, trees))
        what = _("Guard against {animal}")
        what = what.format(animal=_(guard(dates.study, trees[0]).animal))
        tasks.append(Task(dates.leaf_fall, last, what, dates.named(trees), how, source=source))
    return tasks


def _mulch(dates: PlanDates) -> Task:
    trees = dates.placement.trees
    how = _(
        "A square metre round each, 7.5 to 10 cm deep on damp, weeded ground, a hand's breadth "
        "clear of the stem."
    )
    last = dates.season.in_summer(4, 15)
    return Task(dates.leaf_fall, max(last, dates.leaf_fall), _("Mulch"), dates.named(trees), how)


def _drainage(dates: PlanDates) -> Task:
    how = _(
        "After heavy rain look where water still stands two days later, and write it down for the "
        "review."
    )
    first, last = dates.season.in_winter(12, 1), dates.season.in_winter(2, 28)
    named = dates.named(dates.placement.trees)
    return Task(first, last, _("Look for standing water"), named, how)
