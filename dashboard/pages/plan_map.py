"""The plan to drag on: what is drawn is shown, what is done on it is told."""

import math
from collections.abc import Callable
from pathlib import Path
from typing import Any

import param
from panel.custom import JSComponent

from model.language import _

HERE = Path(__file__).parent
FAR = 1e6  # m


class PlanMap(JSComponent):
    """Crowns on the land. `acted(act, tree, x, y)` is called with choose, try, done, keep, back.

    `tree` is the number of a tree from 1, 0 for none; x, y [m] where it is tried.
    """

    marks = param.List(default=[], doc="The survey, from the ground up.")
    home = param.List(default=[0, 0, 1, 1], doc="West, south, east and north of the site.")
    trees = param.List(default=[], doc="The trees with their crowns.")
    links = param.List(default=[], doc="Lines between flowering partners.")
    ghosts = param.List(
        default=[], doc="From where trees of the old plan stood to where they went."
    )
    blocked = param.List(default=[], doc="Places that are closed.")
    chosen = param.Integer(default=0, doc="The tree that is chosen; 0 for none.")
    trial = param.Dict(
        default={}, doc="Where a tree is tried, what it costs, whether it was let go."
    )
    answer = param.Integer(default=0, doc="Counts the questions that were answered.")
    feet = param.Boolean(default=False, doc="The scale bar in feet.")
    words = param.Dict(default={}, doc="Words on the map.")

    _esm = "\n".join(
        (HERE / name).read_text(encoding="utf-8")
        for name in ("survey_plan_view.js", "plan_map_view.js", "plan_map.js")
    )
    _stylesheets = [(HERE / "plan_map.css").read_text(encoding="utf-8")]  # noqa: RUF012 -- as Panel wants it

    def __init__(self, acted: Callable[[str, int, float, float], None], **settings: Any) -> None:
        super().__init__(**{"words": words(), "margin": 0, **settings})
        self._acted = acted

    def _handle_msg(self, data: Any) -> None:
        act, tree = data.get("act"), data.get("id", 0)
        try:
            if act == "try" and _near(data.get("x")) and _near(data.get("y")):
                act = "done" if data.get("done") else "try"
                self._acted(act, self._known(tree), float(data["x"]), float(data["y"]))
            elif act in ("choose", "keep", "back"):
                self._acted(act, self._known(tree), 0.0, 0.0)
        finally:
            if data.get("act") == "try":
                self.answer += 1

    def _known(self, tree: Any) -> int:
        return tree if isinstance(tree, int) and 0 < tree <= len(self.trees) else 0


def _near(number: Any) -> bool:
    plain = isinstance(number, int | float) and not isinstance(number, bool)
    return plain and math.isfinite(number) and abs(number) < FAR


def words() -> dict[str, str]:
    """The words on the map, in the language in use."""
    return {
        "map": _("Map of the plan: trees at full size"),
        "keep": _("Keep it there"),
        "back": _("Put it back"),
        "closer": _("Closer"),
        "farther": _("Farther"),
        "whole": _("Whole site"),
        "north": _("N"),
        "help": _(
            "Page Down and Page Up choose a tree. Arrow keys try it elsewhere, 1.5 m a step, with "
            "Shift 7.5 m; what that costs is said. Enter keeps it there, Escape puts it back. "
            "Plus and minus zoom."
        ),
    }
