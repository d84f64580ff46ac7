"""Sliders with a stretch marked under the track, which wait for their answer."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import panel as pn
import param
from panel.custom import JSComponent

from dashboard import theme

HERE = Path(__file__).parent


@dataclass(frozen=True)
class Slider:
    """One slider as it is shown: `stay` is the stretch marked under its track, empty for none."""

    id: str
    label: str
    value: float
    share: str
    low: float = 0.0
    high: float = 100.0
    step: float = 1.0
    kind: str = "factor"
    within: str = ""
    question: str = ""
    note: str = ""
    hint: str = ""
    ends: tuple[str, str] = ("", "")
    stay: tuple[float, ...] = ()
    tone: str = theme.QUIET
    touched: bool = False
    quiet: bool = False


class Sliders(JSComponent):
    """A column of sliders. `moved(id, value, settled)` is called as one is dragged and let go."""

    rows = param.List(default=[], doc="Sliders as plain values, top to bottom.")
    opened = param.List(default=[], doc="Ids of the families that are unfolded.")
    answer = param.Integer(default=0, doc="Counts the moves that were answered.")

    _esm = HERE / "sliders.js"
    _stylesheets = [(HERE / "sliders.css").read_text(encoding="utf-8")]  # noqa: RUF012 -- as Panel wants it

    def __init__(self, moved: Callable[[str, float, bool], None], **settings: Any) -> None:
        super().__init__(**{"sizing_mode": "stretch_width", **settings})
        self._moved = moved

    def set(self, sliders: Sequence[Slider]) -> None:
        """Show these sliders, sent only when something about them changed."""
        rows = [
            vars(slider) | {"ends": list(slider.ends), "stay": list(slider.stay)}
            for slider in sliders
        ]
        if rows != self.rows:
            self.rows = rows

    def _handle_msg(self, data: Any) -> None:
        with pn.io.hold():
            try:
                self.move(data)
            finally:
                self.answer += 1

    def move(self, data: Any) -> None:
        """Pass on a move, unless the page asks for what none of its sliders can do."""
        row = next((row for row in self.rows if row["id"] == data.get("id")), None)
        value = data.get("value")
        if row is None or not isinstance(value, int | float) or not math.isfinite(value):
            return
        settled = bool(data.get("settled"))
        self._moved(row["id"], min(max(float(value), row["low"]), row["high"]), settled)
