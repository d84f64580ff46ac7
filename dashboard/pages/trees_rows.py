"""Trees in words: the cells of the table, the filters, the weeks of the site's own year."""

import math
from datetime import date, timedelta
from typing import Any

import numpy as np

from dashboard.pages.trees_work import A_PAGE, TreesWork
from model.language import SHORT_DAY, _, dated, marked, month_name
from model.trees import Option
from model.trees.choosing import HALF_A_YEAR, YEAR

SECONDS = 0.03  # to judge one tree on a land of six thousand places, on a small computer
COLUMNS = (
    ("tree", "Tree", True),
    ("height", "Full height here", True),
    ("flowers", "In flower", True),
    ("pollen", "Pollen", False),
    ("picked", "Picked", True),
    ("land", "On this land", False),
    ("score", "Best score", True),
    ("acts", "Do", False),
)
POLLEN = {
    "yes": marked("self-fertile"),
    "partly": marked("partly self-fertile"),
    "no": marked("not self-fertile"),
}


def fruit(species: str) -> str:
    """A fruit's name in words.

    >>> fruit("european_plum")
    'european plum'
    """
    return species.replace("_", " ")


def ident(option: Option) -> str:
    """An option's name on the page."""
    return "|".join((option.species, option.cultivar, option.rootstock))


def about_size(low: float, typical: float, high: float) -> str:
    """A size as one says it.

    >>> about_size(3.21, 4.02, 4.58)
    'about 4.0 m, 3.2 to 4.6 m'
    """
    said = _("about {typical} m, {low} to {high} m")
    return said.format(typical=f"{typical:.1f}", low=f"{low:.1f}", high=f"{high:.1f}")


def days(first: float, last: float) -> str:
    """Two days of the year in short.

    >>> days(244, 263), days(244, 280)
    ('1 to 20 Sep', '1 Sep to 7 Oct')
    """
    if not (math.isfinite(first) and math.isfinite(last)):
        return _("not known")
    start, end = (date(2001, 1, 1) + timedelta((round(d) - 1) % YEAR) for d in (first, last))
    if start.month == end.month and start <= end:
        return _("{first} to {last}").format(first=start.day, last=dated(end, SHORT_DAY))
    return _("{first} to {last}").format(first=dated(start, SHORT_DAY), last=dated(end, SHORT_DAY))


def bloom_days(work: TreesWork, number: int) -> str:
    """The weeks in flower here."""
    middle, length = work.here.bloom[number], work.here.traits.bloom_length[number]
    half = (10.0 if math.isnan(length) else length) / 2
    return days(middle - half, middle + half)


def picking_days(work: TreesWork, number: int) -> str:
    """The weeks of picking, in the site's hemisphere."""
    shift = 0 if work.here.north else HALF_A_YEAR
    first, last = work.here.traits.pick_first[number], work.here.traits.pick_last[number]
    return days(first + shift, last + shift)


def table(work: TreesWork, numbers: np.ndarray) -> dict[str, Any]:
    """Everything the table shows of one page of what was found."""
    look, count = work.look, len(numbers)
    pages = max(1, -(-count // A_PAGE))
    look.page = min(max(look.page, 0), pages - 1)
    page = numbers[look.page * A_PAGE : (look.page + 1) * A_PAGE]
    total = len(work.here.options)
    unjudged = sum(work.here.options[n] not in look.judged for n in numbers)
    seconds = max(5, 5 * math.ceil(unjudged * SECONDS / 5))
    act = _("Judge these {count} on this land (about {seconds} s)")
    act = act.format(count=unjudged, seconds=seconds)
    return {
        "rows": [_row(work, int(number)) for number in page],
        "columns": [_head(work, *column) for column in COLUMNS],
        "caption": _("{count} of {total} trees").format(count=count, total=total),
        "empty": _("No tree fits all of this. Ask for less: clear the search or one filter."),
        "pages": [look.page, pages],
        "acts": [{"id": "judge", "label": act}] * bool(unjudged)
        + [{"id": "clear", "label": _("Clear search and filters")}]
        * bool(any(look.asked.values())),
        "fields": fields(work),
    }


def _head(work: TreesWork, name: str, label: str, sorts: bool) -> dict[str, str]:
    way = "descending" if work.look.falling else "ascending"
    sort = (way if work.look.sort == name else "none") if sorts else ""
    return {"id": name, "label": _(label), "sort": sort}


def _row(work: TreesWork, number: int) -> dict[str, Any]:
    option = work.here.options[number]
    return {
        "id": ident(option),
        "label": option.label,
        "listed": work.listed(option),
        "compared": option in work.look.compared,
        "current": option == work.look.chosen,
        "cells": [
            _tree(work, number),
            _size(work, number),
            _flowers(work, number),
            _pollen(work, number),
            {"text": picking_days(work, number)},
            _land(work, number),
            _score(work, option),
        ],
    }


def _tree(work: TreesWork, number: int) -> dict[str, str]:
    option = work.here.options[number]
    parts = [fruit(option.species), work.here.uses[number]]
    parts += [_("your own")] * work.is_own(option)
    parts += [_("on the short list")] * work.listed(option)
    return {"text": option.label, "small": ", ".join(part for part in parts if part)}


def _size(work: TreesWork, number: int) -> dict[str, str]:
    low, typical, high = work.here.size.height[:, number, 0]
    shown = work.session.shown
    return {"text": shown(f"about {typical:.1f} m"), "small": shown(f"{low:.1f} to {high:.1f} m")}


def _flowers(work: TreesWork, number: int) -> dict[str, str]:
    group = work.here.traits.flower_group[number]
    said = "" if math.isnan(group) else _("group {group}").format(group=f"{group:g}")
    return {"text": bloom_days(work, number), "small": said}


def _pollen(work: TreesWork, number: int) -> dict[str, str]:
    traits = work.here.traits
    if traits.pollination[number] == "none needed":
        return {"text": _("none needed")}
    own = traits.self_fertile[number]
    said = _(POLLEN.get(own, "not known"))
    if own == "yes":
        return {"text": said}
    if work.served[number]:
        return {"text": _("partner at hand"), "small": said}
    text = _("needs two partners") if traits.triploid[number] else _("needs a partner")
    return {"text": text, "small": said, "tone": "bad"}


def land_words(work: TreesWork, number: int) -> str:
    """What of the usual climate and soil here the tree lacks; empty when it has all it needs."""
    short = [_("short of {need}").format(need=_(n)) for n in work.here.climate_faults(number)]
    return "; ".join([*short, *map(_, work.here.soil_words(number))])


def _land(work: TreesWork, number: int) -> dict[str, str]:
    wrong = land_words(work, number)
    return {"text": wrong, "tone": "bad"} if wrong else {"text": _("fits")}


def _score(work: TreesWork, option: Option) -> dict[str, str]:
    if option not in work.look.judged:
        return {"text": "\N{EN DASH}", "small": _("not judged")}
    best, _place, on_peg, peg = work.score(option)
    if math.isnan(best):
        return {"text": _("ruled out"), "tone": "bad"}
    places = work.study.ground.places
    if peg < 0:
        return {"text": f"{100 * best:.0f}", "small": _("on no peg")}
    return {"text": f"{100 * best:.0f}", "small": f"{places.name(peg)}: {100 * on_peg:.0f}"}


def fields(work: TreesWork) -> list[dict[str, Any]]:
    """Search and filters with what is asked."""
    here = work.here
    species = dict.fromkeys(option.species for option in here.options)
    uses = dict.fromkeys(use for use in here.uses if use)
    months = [(str(number), month_name(number)) for number in range(1, 13)]
    choices: dict[str, tuple[str, list[tuple[str, str]]]] = {
        "species": (_("Fruit"), [(one, fruit(one)) for one in species]),
        "use": (_("Use"), [(one, _(one)) for one in uses]),
        "pollen": (
            _("Pollen"),
            [
                ("yes", _("self-fertile")),
                ("partly", _("at least partly")),
                ("served", _("has a partner here")),
            ],
        ),
        "month": (_("Picked in"), months),
        "land": (
            _("This land"),
            [
                ("climate", _("fits the climate")),
                ("soil", _("bears the soil")),
                ("both", _("climate and soil")),
            ],
        ),
        "kept": (_("Short list"), [("list", _("on it"))]),
    }
    asked = work.look.asked
    found: list[dict[str, Any]] = [
        {"name": "text", "kind": "search", "label": _("Search"), "value": asked.get("text", "")}
    ]
    for name, (label, listed) in choices.items():
        value = asked.get(name, "")
        pairs = [["", _("any")], *map(list, listed)]
        found.append(
            {"name": name, "kind": "choice", "label": label, "choices": pairs, "value": value}
        )
    height = {"name": "height", "kind": "number", "label": _("Height up to [m]")}
    found.insert(3, height | {"value": asked.get("height", "")})
    return found
