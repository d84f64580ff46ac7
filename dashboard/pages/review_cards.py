"""The review as cards, one a tree, each with its pictures and its next steps."""

from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path
from typing import Any

import param
from panel.custom import JSComponent

from dashboard.plots.review_intervals import picture, thing
from model.language import SHORT_DAY_AND_YEAR, _, dated, marked
from model.planting.year_after.evidence import Evidence
from model.planting.year_after.keep_or_move import Judged
from model.planting.year_after.review import Review
from model.planting.year_after.review_words import evidence_figure, reason
from model.study import Study

HERE = Path(__file__).parent
SIGNS = {
    "keep": "\N{CHECK MARK}",
    "wait": "\N{HORIZONTAL ELLIPSIS}",
    "move": "\N{RIGHTWARDS ARROW}",
}
CAUTIONS = marked(
    "Before the spade: plans from every network operator, trace with a locator, dig by hand; "
    "keep stake, spade and ladder clear of overhead wires. Local codes and licensed practice "
    "come first."
)
LIFTING = marked(
    "Lift with two people, from the knees: a root ball weighs more than it looks. Wear boots and "
    "gloves."
)
REPLANTING = marked(
    "Dig the new hole first, on a day without frost, drought or standing water. Take all the "
    "root you can with its soil, keep it wet and out of the wind, replant at the old depth within "
    "the hour, firm, stake, water, and water through the next summer."
)
HOW_TO_MOVE = (CAUTIONS, LIFTING, REPLANTING)


class ReviewCards(JSComponent):
    """The cards. `told(what, spot)` is called when a button is pressed."""

    cards = param.List(default=[], doc="The cards as plain values.")
    words = param.Dict(default={}, doc="Words that all cards share.")

    _esm = HERE / "review_cards.js"
    _stylesheets = [(HERE / "review_cards.css").read_text(encoding="utf-8")]  # noqa: RUF012 -- as Panel wants it

    def __init__(self, told: Callable[[str, str], None], **settings: Any) -> None:
        words = {
            "columns": [_("Watched"), _("Expected"), _("Seen"), _("What it means")],
            "nothing": _("Nothing was seen at this tree yet: the map stands."),
            "more": _("How far, and what goes with it"),
            "notes": _("Beside it"),
            "bars": _("Bars hold the figure 19 times in 20; the mark is the figure itself."),
        }
        super().__init__(words=words, sizing_mode="stretch_width", margin=0, **settings)
        self._told = told

    def _handle_msg(self, data: Any) -> None:
        if isinstance(data.get("id"), str) and isinstance(data.get("key"), str):
            self._told(data["id"], data["key"])


def cards(study: Study, made: Review, shown: Callable[[str], str]) -> list[dict[str, Any]]:
    """Every tree as plain values, those to be moved first; sentences as the visitor reads them."""
    order = {"move": 0, "wait": 1, "keep": 2}
    both = sorted(zip(made.trees, made.notes, strict=True), key=lambda pair: order[pair[0].advice])
    return [_card(study, judged, notes, shown) for judged, notes in both]


def _card(
    study: Study, judged: Judged, notes: Sequence[str], shown: Callable[[str], str]
) -> dict[str, Any]:
    spot, there = judged.tree.spot, where_to(study, judged)
    pictures = [picture(one) for one in judged.evidence]
    why = reason(study, judged)
    cautions = HOW_TO_MOVE if judged.advice == "move" else ()
    buttons = [{"id": "here", "label": _("Weigh {place}").format(place=spot)}]
    if there:
        buttons.insert(0, {"id": "there", "label": _("Weigh {place}").format(place=there)})
    return {
        "key": spot,
        "title": study.options[judged.tree.option].label,
        "where": _("at {spot}, {seasons}").format(spot=spot, seasons=_seasons(judged.seasons)),
        "advice": judged.advice,
        "sign": SIGNS[judged.advice],
        "told": _told(judged, there),
        "lines": _lines(judged, there),
        "reason": shown(f"{why[:1].upper()}{why[1:]}"),
        "rows": [_row(one, shown) for one in judged.evidence],
        "pictures": [_spoken(one, shown) for one in pictures if one is not None],
        "notes": [shown(note) for note in (*notes, *cautions) if note],
        "buttons": buttons,
    }


def where_to(study: Study, judged: Judged) -> str:
    """The peg that a tree might go to, an empty word where it stays."""
    if judged.there is None or judged.advice == "keep":
        return ""
    return study.ground.places.short_name(judged.there.place)


def day(one: date) -> str:
    """A day as people write it."""
    return dated(one, SHORT_DAY_AND_YEAR)


def _told(judged: Judged, there: str) -> str:
    if judged.advice == "move":
        return _("Move to {place}").format(place=there)
    return _("Wait and look again") if judged.advice == "wait" else _("Keep")


def _lines(judged: Judged, there: str) -> list[str]:
    """Gain and window, where they matter."""
    if judged.advice == "keep" or judged.compared is None:
        return []
    gain = round(100 * judged.there.score) - round(100 * judged.here.score) if judged.there else 0
    said = [_("{place}: {gain} points of 100 more").format(place=there, gain=gain)]
    window = _("{first} to {last}").format(
        first=day(judged.window.first), last=day(judged.window.last)
    )
    if judged.advice == "move":
        return [*said, _("While dormant: {window}").format(window=window)]
    return [*said, _("Earliest, if it holds: the dormant season after next autumn's look")]


def _seasons(seasons: int) -> str:
    return _("1 season") if seasons == 1 else _("{count} seasons").format(count=seasons)


def _row(one: Evidence, shown: Callable[[str], str]) -> dict[str, Any]:
    words = one.words
    if not one.own:
        words = _("{words} (at another peg in the same soil)").format(words=words)
    cells = [
        thing(one),
        evidence_figure(one, one.prior.mean),
        evidence_figure(one, one.seen),
        words,
    ]
    return {"cells": [shown(cell) for cell in cells], "bad": one.doubted}


def _spoken(one: dict[str, Any], shown: Callable[[str], str]) -> dict[str, Any]:
    rows = [{**row, "told": shown(row["told"])} for row in one["rows"]]
    ends = {key: shown(str(one[key])) for key in ("said", "low", "high")}
    return {**one, **ends, "rows": rows}
