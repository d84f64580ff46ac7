"""Rows in an order, one of them chosen, that can be read and moved through without a mouse."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
import panel as pn
import param
from panel.custom import JSComponent

from dashboard import theme

HERE = Path(__file__).parent
SCALES = (0.06, 0.08, 0.1, 0.15, 0.2, 0.3, 0.5, 0.75, 1.0)


@dataclass(frozen=True)
class Row:
    """One row: `share` is the length of its bar [0 to 1], None where it is not known.

    `parts` are the bars of its columns, none where it has no columns.
    """

    id: str
    label: str
    share: float | None
    figure: str
    tone: str
    mark: str = ""
    note: str = ""
    chosen: bool = False
    leads: bool = False
    out: bool = False
    parts: tuple[float, ...] = ()


@dataclass(frozen=True)
class Head:
    """What stands over a column of parts."""

    label: str
    tone: str
    family: str


class RankedRows(JSComponent):
    """A list of rows. `chosen(id)` and `column(number)` are called with what was tapped."""

    kind = param.String(default="merit", doc="How a row is laid out: merit or bars.")
    label = param.String(default="", doc="What the list is called by a screen reader.")
    line = param.String(default="", doc="Words for the line above the rows that are out.")
    unit = param.String(default="", doc="Words over the figures.")
    rows = param.List(default=[], doc="Rows as plain values, top to bottom.")
    heads = param.List(default=[], doc="Heads of the columns as plain values.")
    weights = param.List(default=[], doc="Outline of each column, on the scale of its parts.")
    top = param.Number(default=1.0, doc="The part that fills a column.")
    dark = param.String(default=theme.INK, doc="Colour of parts below nothing.")

    _esm = HERE / "ranked_rows.js"
    _stylesheets = [(HERE / "ranked_rows.css").read_text(encoding="utf-8")]  # noqa: RUF012 -- as Panel wants it

    def __init__(
        self,
        chosen: Callable[[str], None],
        column: Callable[[int], None] | None = None,
        heads: Sequence[Head] = (),
        **settings: Any,
    ) -> None:
        super().__init__(**{"heads": [vars(head) for head in heads], "margin": 0, **settings})
        self._chosen, self._column = chosen, column

    def set(self, rows: Sequence[Row], weights: np.ndarray | None = None) -> None:
        """Show these rows, sent only where something about them changed."""
        plain = [vars(row) | {"parts": [round(part, 5) for part in row.parts]} for row in rows]
        changed: dict[str, Any] = {"rows": plain} if plain != self.rows else {}
        if weights is not None:
            shares = [round(float(share), 5) for share in weights]
            top = next(scale for scale in SCALES if scale >= max(shares) - 1e-6)
            if shares != self.weights:
                changed |= {"weights": shares, "top": top, "rows": plain}
        if changed:
            self.param.update(**changed)

    def _handle_msg(self, data: Any) -> None:
        with pn.io.hold():
            ids = [row["id"] for row in self.rows]
            if data.get("row") in ids:
                self._chosen(data["row"])
            column = data.get("column")
            if self._column and isinstance(column, int) and 0 <= column < len(self.heads):
                self._column(column)
