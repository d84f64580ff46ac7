"""The plan to pencil on: what is drawn is shown, what is done on it is told."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import param
from panel.custom import JSComponent

from model.language import _
from model.survey.measuring import Place

HERE = Path(__file__).parent
MOST_POINTS = 5000  # corners that one message may hold
FAR = 1e6  # m


class Plan(JSComponent):
    """A drawing of the site. `acted(act, data)` is called with what was done on it."""

    marks = param.List(default=[], doc="What is drawn, from the ground up.")
    chosen = param.Integer(default=0, doc="The mark that is chosen; 0 for none.")
    tool = param.String(default="", doc="What is being drawn: a kind, measure, pick; or nothing.")
    shape = param.String(default="Point", doc="Geometry of what is being drawn.")
    tools = param.List(default=[], doc="Groups of what can be drawn: title, (value, label).")
    home = param.List(default=[0, 0, 1, 1], doc="West, south, east and north of all that is drawn.")
    refit = param.Integer(default=0, doc="Counts the times the whole site was brought into view.")
    url = param.String(default="", doc="Picture under the plan as a data address.")
    lie = param.List(default=[], doc="Its corner, scale, turn, opacity, width and height.")
    said = param.String(default="", doc="Lengths, bearing and area, or what to do.")
    steps = param.List(default=[False, False], doc="Whether there is a step to undo, to redo.")
    answer = param.Integer(default=0, doc="Counts the questions that were answered.")
    feet = param.Boolean(default=False, doc="The scale bar in feet.")
    words = param.Dict(default={}, doc="Words on the plan.")

    _esm = "\n".join(
        (HERE / name).read_text(encoding="utf-8")
        for name in ("survey_plan_view.js", "survey_plan_hand.js", "survey_plan.js")
    )
    _stylesheets = [(HERE / "survey_plan.css").read_text(encoding="utf-8")]  # noqa: RUF012 -- as Panel wants it

    def __init__(self, acted: Callable[[str, dict[str, Any]], None], **settings: Any) -> None:
        filling = {"sizing_mode": "stretch_both", "margin": 0}
        super().__init__(**{"words": words(), **filling, **settings})
        self._acted = acted

    def _handle_msg(self, data: Any) -> None:
        act = data.get("act")
        try:
            if isinstance(act, str):
                self._acted(act, data | {"points": places(data.get("points", []))})
        finally:
            if act == "measure":
                self.answer += 1


def places(raw: Any) -> tuple[Place, ...]:
    """Points of a message, none when any of them is not two finite numbers within reason."""
    if not isinstance(raw, list) or len(raw) > MOST_POINTS:
        return ()
    found = [one for one in raw if isinstance(one, list) and len(one) == 2 and all(map(_near, one))]
    return tuple((float(x), float(y)) for x, y in found) if len(found) == len(raw) else ()


def _near(number: Any) -> bool:
    plain = isinstance(number, int | float) and not isinstance(number, bool)
    return plain and abs(number) < FAR  # NaN is not below anything


def words() -> dict[str, str]:
    """The words on the plan, in the language in use."""
    return {
        "plan": _("Plan of the site"),
        "tools": _("Drawing tools"),
        "draw": _("What to draw"),
        "finish": _("Finish"),
        "cancel": _("Cancel"),
        "undo": _("Undo"),
        "redo": _("Redo"),
        "remove": _("Delete"),
        "corner": _("Delete corner"),
        "closer": _("Closer"),
        "farther": _("Farther"),
        "whole": _("Whole site"),
        "snap": _("Snap to 0.5 m"),
        "north": _("N"),
        "help": _(
            "Arrow keys move the cross by half a metre, with Shift by five. Enter places a point "
            "or chooses what lies under the cross. Arrow keys move what is chosen. Delete "
            "removes it, Escape cancels, plus and minus zoom. Everything can also be typed."
        ),
    }
