"""The calendar's watering: from when to when, how many litres a week, in the first summers."""

from collections.abc import Sequence
from datetime import date

from model.ground.watering import NO_DAY
from model.language import _, marked
from model.planting.dates.plan_dates import PlanDates, Task
from model.planting.dates.season import later, on_or_after
from model.planting.effort.bringing_water import (
    HOT_WEEK,
    USUAL_SOURCE,
    USUAL_WEEK,
    Thirst,
    thirst,
)
from model.planting.placement import Planted

RECKONED = marked(
    "water balance of FAO Irrigation Paper 56 on this site's weather and soil; rain that saves a "
    "week: common practice, no source"
)
BY_THUMB = marked("{source}; fortnightly in the second year, monthly in the third")
SKIP = marked("Skip a week that brings 20 mm of rain; water slowly, on the mulched round.")


def watering_tasks(dates: PlanDates) -> list[Task]:
    """Watering of the first two summers, and what the third asks in a drought."""
    trees = dates.placement.trees
    found = {tree: thirst(dates.study, tree) for tree in trees}
    reckoned = {tree: drinks for tree, drinks in found.items() if drinks is not None}
    unknown = [tree for tree in trees if tree not in reckoned]
    tasks = [_third(dates)]
    for summer in (1, 2):
        tasks += _reckoned(dates, reckoned, summer)
        if unknown:
            tasks.append(_by_thumb(dates, unknown, summer))
    return tasks


def _reckoned(dates: PlanDates, reckoned: dict[Planted, Thirst], summer: int) -> list[Task]:
    """One line for the trees that share dates and amounts."""
    groups: dict[tuple, list[Planted]] = {}
    for tree, drinks in reckoned.items():
        key = (drinks.first, drinks.last, round(drinks.week), *_litres(drinks, summer))
        groups.setdefault(key, []).append(tree)
    return [_task(dates, trees, reckoned, summer) for trees in groups.values()]


def _litres(drinks: Thirst, summer: int) -> tuple[int, int]:
    """Litres of a median and of a dry summer, the first being number 1."""
    median, dry = drinks.litres[summer - 1]
    return round(median), round(dry)


def _task(
    dates: PlanDates, trees: Sequence[Planted], reckoned: dict[Planted, Thirst], summer: int
) -> Task:
    drinks = reckoned[trees[0]]
    what = _("Water, summer of year {year}").format(year=summer)
    named = dates.named(trees)
    if drinks.first == NO_DAY:
        first, last = _usual(dates, summer)
        how = _(
            "Reckoned to need none even in a dry summer: water if the leaves flag all the same."
        )
        return Task(first, last, what, named, how, source=_(RECKONED))
    first, last = (later(day, summer - 1) for day in watering_dates(dates, drinks))
    median, dry = _litres(drinks, summer)
    weeks = max((last - first).days / 7, 1)
    dose = _(
        "Each tree about {week:.0f} l a week in a dry summer (one in ten); {dry} l in all, "
        "{median} l in a usual one."
    )
    if summer == 1:
        dose = _(
            "Each tree about {week:.0f} l a week in a dry summer (one in ten), up to {most:.0f} l "
            "in the hottest week; {dry} l in all, {median} l in a usual one."
        )
    from_where = _("From {sources}.")
    parts = [
        dose.format(week=dry / weeks, most=drinks.week, dry=dry, median=median),
        from_where.format(sources="; ".join(dict.fromkeys(reckoned[t].source for t in trees))),
        _(SKIP),
    ]
    if drinks.week > drinks.holds:
        parts.append(_("That is more than the tank holds."))
    return Task(first, last, what, named, " ".join(parts), source=_(RECKONED))


def watering_dates(dates: PlanDates, drinks: Thirst) -> tuple[date, date]:
    """First and last day on which the first dry summer calls for water."""
    first = on_or_after(drinks.first, dates.season.in_winter(2, 15))
    return first, on_or_after(drinks.last, first)


def _by_thumb(dates: PlanDates, trees: Sequence[Planted], summer: int) -> Task:
    first, last = _usual(dates, summer)
    rule = _("As a rule {litres:g} l each a fortnight, {hot:g} l when it is hot.")
    if summer == 1:
        rule = _("As a rule {litres:g} l each a week, {hot:g} l when it is hot.")
    unknown = _("Not reckoned here: the survey says neither tap nor tank, or no weather.")
    how = f"{unknown} {rule.format(litres=USUAL_WEEK, hot=HOT_WEEK)} {_(SKIP)}"
    what = _("Water, summer of year {year}").format(year=summer)
    return Task(first, last, what, dates.named(trees), how, source=_by_whose_thumb())


def _third(dates: PlanDates) -> Task:
    of = dates.season.in_summer
    how = _("Only in a drought: {litres:g} l each, once a month.").format(litres=USUAL_WEEK)
    what, named = _("Water, summer of year {year}"), dates.named(dates.placement.trees)
    source = _by_whose_thumb()
    return Task(of(6, 1, 3), of(8, 31, 3), what.format(year=3), named, how, source=source)


def _by_whose_thumb() -> str:
    """Where the rule of thumb comes from."""
    return _(BY_THUMB).format(source=USUAL_SOURCE)


def _usual(dates: PlanDates, summer: int) -> tuple[date, date]:
    """April to the end of September in the north."""
    return dates.season.in_summer(4, 1, summer), dates.season.in_summer(9, 30, summer)
