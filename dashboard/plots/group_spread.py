"""How much each group gives each family and factor: a dot a group, the common weight marked."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import holoviews as hv
import numpy as np
from numpy.typing import ArrayLike

from dashboard import theme
from dashboard.live import Layers
from dashboard.plots import marks
from model.group.agreement import Agreement

NAMES, BARS, END, FIGURES = 0.0, 200.0, 640.0, 652.0
EDGE = 720.0
TOPS = {20: 5, 30: 4, 40: 5, 50: 6, 60: 4, 80: 5, 100: 6}  # right end [%] and its ticks
NEAR = 9.0  # dots nearer on the axis than this stand above one another
HIGH = 0.34  # rows that they may take for it, either way
GAP = 0.5  # rows between the families and the factors


@dataclass(frozen=True)
class Row:
    """One row: shares (ballot,) [0 to 1], NaN where left out; the common one; those of before."""

    label: str
    colour: str
    family: bool
    shares: np.ndarray
    common: float
    before: np.ndarray


def rows(
    found: Agreement,
    groups: Sequence[str],
    labels: Sequence[str],
    first: Agreement | None = None,
    most: int | None = None,
) -> list[Row]:
    """The families, then the factors that the groups part furthest over (all, or so many).

    `groups` (factor,) is the family of each factor, `labels` what the families are called, in
    order; `first` is the vote before.
    """
    families = list(dict.fromkeys(groups))
    none = np.zeros((0, len(groups)))
    now, then = found.shares, none if first is None else first.shares
    drawn = []
    for family, label in zip(families, labels, strict=True):
        own = np.array([one == family for one in groups])
        sums = (np.nansum(shares[:, own], axis=1) for shares in (now, then))
        common = float(found.consensus.shares[own].sum())
        present, before = sums
        colour = theme.family_colour(family)
        drawn.append(Row(label, colour, True, present, common, before))
    order = np.argsort(-found.disagreement, kind="stable")[:most]
    for one in order:
        colour, common = theme.family_colour(groups[one]), float(found.consensus.shares[one])
        drawn.append(Row(found.factors[one], colour, False, now[:, one], common, then[:, one]))
    return drawn


def layers(drawn: Sequence[Row]) -> Layers:
    """Columns of the plot, the first row at the top."""
    top = _top(drawn)
    heights = np.arange(len(drawn)) + np.where([row.family for row in drawn], 0.0, GAP)
    ticks = np.linspace(0, top, TOPS[top])
    x, common = _place(ticks / 100, top), _place([row.common for row in drawn], top)
    named = list(zip(drawn, heights, strict=True))
    return {
        "grid": {
            "x0": x,
            "x1": x,
            "y0": np.full(x.size, -0.6),
            "y1": np.full(x.size, heights[-1] + 0.5),
        },
        "scale": {"x": x, "y": np.full(x.size, -1.0), "text": [f"{tick:.0f} %" for tick in ticks]},
        "before": _dots([(row.before, y, row.colour) for row, y in named], top, "line_color"),
        "dots": _dots([(row.shares, y, row.colour) for row, y in named], top, "fill_color"),
        "common": {
            "left": common - 2.5,
            "right": common + 2.5,
            "bottom": heights + 0.42,
            "top": heights - 0.42,
        },
        "families": _words([(row.label, y) for row, y in named if row.family], NAMES),
        "factors": _words([(row.label, y) for row, y in named if not row.family], NAMES),
        "figures": _words([(f"{100 * row.common:.0f} %", y) for row, y in named], FIGURES),
    }


def plot(columns: Layers, size: int = 13) -> hv.Overlay:
    """The plot, drawn from `layers`; `size` of its words [px]."""
    dot = 0.8 * size
    plain = {"text_font_size": f"{size}px", "text_color": theme.INK}
    bold = plain | {"text_font_style": "bold"}
    drawn = [
        marks.strokes(columns["grid"], "grid", color=theme.FAINT, line_width=1),
        marks.words(columns["scale"], "scale", **plain | {"text_align": "center"}),
        marks.dots(columns["before"], "before", size=dot, fill_color="#ffffff", line_width=1.5),
        marks.dots(columns["dots"], "dots", size=dot, line_color="#ffffff", fill_alpha=0.9),
        marks.bars(columns["common"], "common", fill_color=theme.INK),
        marks.words(columns["families"], "families", **bold),
        marks.words(columns["factors"], "factors", **plain),
        marks.words(columns["figures"], "figures", **bold),
    ]
    return marks.bare(
        hv.Overlay([one.opts(padding=0) for one in drawn]),
        xlim=(NAMES, EDGE),
        ylim=(-1.4, float(np.max(columns["common"]["bottom"])) + 0.2),
        invert_yaxis=True,
        xaxis=None,
        yaxis=None,
    )


def stacked(x: np.ndarray) -> np.ndarray:
    """Heights [rows] of dots at x, in any order, so that those too near do not cover one another.

    >>> stacked(np.array([0.0, 30.0, 2.0])).tolist()
    [-0.085, 0.0, 0.085]
    """
    order = np.argsort(x, kind="stable")
    begins = np.diff(x[order], prepend=-np.inf) >= NEAR
    run = np.cumsum(begins) - 1
    size = np.bincount(run, minlength=1)
    first = np.flatnonzero(begins)
    number = np.arange(x.size) - first[run] if x.size else np.zeros(0)
    lanes = np.minimum(size[run], 5)
    raised = np.empty(x.size)
    raised[order] = ((number % lanes) - (lanes - 1) / 2) * HIGH / 2
    return raised


def _place(shares: ArrayLike, top: int) -> np.ndarray:
    """Where shares [0 to 1] stand on the axis."""
    return BARS + (END - BARS) * 100 * np.asarray(shares, float) / top


def _dots(parts: Sequence[tuple[np.ndarray, float, str]], top: int, paint: str) -> dict[str, Any]:
    x: list[float] = []
    y: list[float] = []
    colours: list[str] = []
    for shares, height, colour in parts:
        at = _place(shares[~np.isnan(shares)], top)
        x += at.tolist()
        y += (height + stacked(at)).tolist()
        colours += [colour] * at.size
    return {"x": x, "y": y, paint: colours}


def _words(words: Sequence[tuple[str, float]], x: float) -> dict[str, Any]:
    return {
        "x": [x] * len(words),
        "y": [height for _text, height in words],
        "text": [text for text, _height in words],
    }


def _top(drawn: Sequence[Row]) -> int:
    """The least end of the axis that holds all dots [%]."""
    known = np.concatenate([part for row in drawn for part in (row.shares, row.before)])
    highest = 100 * np.nanmax(known, initial=0.0)
    return next((top for top in TOPS if highest <= top), 100)
