"""The years: a slider with the year in big type, to play and pause."""

import math
from collections.abc import Callable
from pathlib import Path
from typing import Any

import panel as pn
import param
from panel.custom import JSComponent

from model.language import _

HERE = Path(__file__).parent


class Clock(JSComponent):
    """A slider of years. `moved(year, settled)` is called as it is dragged, played and let go."""

    year = param.Number(default=0.0, doc="Years since planting.")
    last = param.Integer(default=30, doc="The last year.")
    said = param.String(default="", doc="What the picture shows, read out when the year settles.")
    answer = param.Integer(default=0, doc="Counts the moves that were answered.")
    words = param.Dict(default={}, doc="Words on the slider.")

    _esm = HERE / "years_clock.js"
    _stylesheets = [(HERE / "years_clock.css").read_text(encoding="utf-8")]  # noqa: RUF012 -- as Panel wants it

    def __init__(self, moved: Callable[[float, bool], None], **settings: Any) -> None:
        shown = {"words": words(), "margin": 0, "sizing_mode": "stretch_width"}
        super().__init__(**shown | settings)
        self._moved = moved

    def _handle_msg(self, data: Any) -> None:
        with pn.io.hold():
            try:
                year = data.get("year")
                if isinstance(year, int | float) and math.isfinite(year):
                    self._moved(min(max(float(year), 0.0), self.last), bool(data.get("settled")))
            finally:
                self.answer += 1


def words() -> dict[str, str]:
    """The words on the slider, in the language in use."""
    return {
        "label": _("Years since planting"),
        "year": _("Year {year}"),
        "play": _("Play"),
        "pause": _("Pause"),
        "planting": _("planting"),
        "grown": _("year {year}"),
    }
