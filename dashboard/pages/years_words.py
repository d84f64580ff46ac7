"""What the years show, in sentences and a table that a grower can read."""

import math
from collections.abc import Callable
from html import escape
from typing import Any

from model.growth.room import Meeting
from model.growth.year import Year
from model.language import _, marked

Spoken = Callable[[str], str]
SEEN = 0.005  # share of a view from which its cover is worth a word
STALE = 0.05  # [m] of room below which none is left
NO_TREES = marked(
    "No tree is shown. Place an order on the Plan page, or choose a place and a tree on the "
    "Weigh page; or show the best tree at every peg."
)


def sentences(now: Year) -> list[str]:
    """The year in a few sentences: size, room, views."""
    if not now.of.stand.new:
        return [_(NO_TREES)]
    return [_size(now), *_room(now), *_views(now)]


def meeting_words(met: Meeting) -> str:
    """Who meets whom and when, for the map."""
    year = whole_year(met.year)
    return _("from the start") if year == 0 else _("meet, year {year}").format(year=year)


def whole_year(year: float) -> int:
    """The year in which something has come about, as people count.

    >>> whole_year(10.3), whole_year(11.0)
    (11, 11)
    """
    return math.ceil(year - 1e-6)


def _size(now: Year) -> str:
    stand, crowns, year = now.of.stand, now.crowns, int(now.year + 1e-6)
    heights = crowns.height[: stand.new]
    if stand.new == 1:
        said = _("Year {year}: {tree} is {height:.1f} m high and {spread:.1f} m wide.")
        return said.format(
            year=year, tree=stand.labels[0], height=heights[0], spread=crowns.spread[0]
        )
    tallest = int(heights.argmax())
    if heights.max() - heights.min() < STALE:
        said = _("Year {year}: all {count} trees are {height:.1f} m high.")
        return said.format(year=year, count=stand.new, height=heights[0])
    said = _(
        "Year {year}: the {count} trees are {low:.1f} m to {high:.1f} m high; tallest is "
        "{tree}, {spread:.1f} m wide."
    )
    return said.format(
        year=year, count=stand.new, low=heights.min(), high=heights.max(),
        tree=stand.labels[tallest], spread=crowns.spread[tallest],
    )  # fmt: skip


def _room(now: Year) -> list[str]:
    """Who has met whom, and who will next."""
    stand = now.of.stand
    coming = [met for met in now.of.meetings if met.year > now.year]
    said = [_met(stand, met) for met in now.met]
    if coming:
        said.append(_("Next: {what}").format(what=_met(stand, coming[0])))
    if not said:
        said = [
            _("Every crown keeps clear of the others to year {year}.").format(year=int(now.of.last))
        ]
    return said


def _met(stand: Any, met: Meeting) -> str:
    first, year = stand.labels[met.first], whole_year(met.year)
    both = met.second >= 0
    if year == 0:
        said = (
            _("{first} and {label} touch from the start.")
            if both
            else _("{first} touches {label} from the start.")
        )
    else:
        said = (
            _("{first} and {label} meet in year {year}.")
            if both
            else _("{first} reaches {label} in year {year}.")
        )
    return said.format(first=first, label=met.label, year=year)


def _views(now: Year) -> list[str]:
    said = []
    for view, share in now.covered:
        if share < SEEN:
            continue
        keep = _("The trees cover {share:.0f} % of the view \u201c{view}\u201d.")
        screen = _("The trees screen {share:.0f} % of \u201c{view}\u201d, as wished.")
        text = screen if view.wish == "screen" else keep
        said.append(text.format(share=100 * share, view=view.label))
    return said


def table(now: Year, shown: Spoken) -> str:
    """The trees of one year as an HTML table; on a narrow screen each is a card."""
    heads = [
        _("Tree"), _("Height"), _("Spread"), _("First crop"), _("Sun a day"),
        _("Room left"), _("Water"),
    ]  # fmt: skip
    head = "".join(f"<th scope='col'>{escape(one)}</th>" for one in heads)
    rows = "".join(_row(heads, cells, shown) for cells in _cells(now))
    caption = _("Each tree in year {year}").format(year=int(now.year + 1e-6))
    return (
        f"<table><caption>{escape(caption)}</caption><thead><tr>{head}</tr></thead>"
        f"<tbody>{rows}</tbody></table>"
    )


def _row(heads: list[str], cells: tuple[str, ...], shown: Spoken) -> str:
    first, *rest = (escape(shown(cell)) for cell in cells)
    data = "".join(
        f"<td data-label='{escape(label)}'>{cell}</td>"
        for label, cell in zip(heads[1:], rest, strict=True)
    )
    return f"<tr><th scope='row'>{first}</th>{data}</tr>"


def _cells(now: Year) -> list[tuple[str, ...]]:
    stand, crowns = now.of.stand, now.crowns
    rooms, sun = now.room, now.sun
    return [
        (
            f"{tree + 1}  {stand.labels[tree]}",
            f"{crowns.height[tree]:.1f} m",
            f"{crowns.spread[tree]:.1f} m",
            _crop(now, tree),
            f"{sun[tree]:.1f} h",
            _left(*rooms[tree]),
            _water(now, tree),
        )
        for tree in range(stand.new)
    ]


def _crop(now: Year, tree: int) -> str:
    first = now.of.stand.first_crop[tree]
    if not math.isfinite(first):
        return _("not known")
    year = max(whole_year(float(first)), 0)
    return _("in crop") if now.year >= year else _("year {year}").format(year=year)


def _left(room: float, what: str) -> str:
    if room < STALE:
        return _("none: {what}").format(what=what)
    return _("{room:.1f} m to {what}").format(room=room, what=what)


def _water(now: Year, tree: int) -> str:
    litres = now.watering(tree)
    if litres is None:
        return _("in the first two summers") if now.year < 2 else _("no more")
    if litres < 1:
        return _("no more") if now.year >= 1 else _("none")
    return _("{litres:.0f} l in a dry summer").format(litres=round(litres, -1))
