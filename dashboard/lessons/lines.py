"""A few named lines over one axis, with places on it marked."""

from collections.abc import Mapping
from typing import Any

import holoviews as hv
import numpy as np
from numpy.typing import ArrayLike

from dashboard import theme
from dashboard.live import Layers
from dashboard.plots import marks

COLOURS = (theme.ACCENT, *theme.FAMILY_COLOURS.values(), theme.QUIET)
DASHES = ("solid", "8 4", "2 3", "12 3 2 3", "5 2")
ROOM = 0.3  # of the axis, kept free at the right for the names


def layers(
    x: ArrayLike,
    named: Mapping[str, ArrayLike],
    limits: tuple[float, float],
    marked: Mapping[str, float] | None = None,
) -> Layers:
    """Columns of the plot: lines over `x` by name, `marked` places on the axis by their words.

    `limits` are those of the upright axis. Lines differ by their dashes too, and carry their names.
    """
    across = np.asarray(x, dtype=float)
    ys = [np.asarray(y, dtype=float) for y in named.values()]
    colours = [COLOURS[number % len(COLOURS)] for number in range(len(ys))]
    low, high = limits
    marked = dict(marked or {})
    at = np.array(list(marked.values()), dtype=float)
    return {
        "lines": {
            "xs": [across] * len(ys),
            "ys": [np.clip(y, low, high) for y in ys],
            "line_color": colours,
            "line_width": [2.5] * len(ys),
            "line_dash": [DASHES[number % len(DASHES)] for number in range(len(ys))],
        },
        "names": _names(across, ys, list(named), colours, limits),
        "marks": {"x0": at, "x1": at, "y0": np.full(at.size, low), "y1": np.full(at.size, high)},
        "mark_words": {
            "x": at,
            "y": high - 0.05 * (high - low) * (1 + np.arange(at.size)),
            "text": [f" {words}" for words in marked],
        },
    }


def _names(
    x: np.ndarray,
    ys: list[np.ndarray],
    names: list[str],
    colours: list[str],
    limits: tuple[float, float],
) -> dict[str, Any]:
    """Names at the right ends of the lines, moved apart so that all can be read."""
    low, high = limits
    ends = [float(np.clip(np.append(low, y[np.isfinite(y)])[-1], low, high)) for y in ys]
    gap = (high - low) / 14
    placed = np.array(theme.spread_apart(ends, gap))
    top, foot = high - gap / 2, low + gap / 2
    over = max(placed.max(initial=low) - top, 0.0) or min(placed.min(initial=high) - foot, 0.0)
    return {
        "x": np.full(len(ys), x[-1] + 0.01 * (x[-1] - x[0])),
        "y": placed - over,
        "text": names,
        "text_color": colours,
    }


def plot(
    columns: Layers,
    across: tuple[float, float],
    limits: tuple[float, float],
    xlabel: str,
    ylabel: str,
    **settings: Any,
) -> hv.Overlay:
    """Lines drawn from `layers`; `across` and `limits` are the ends of the two axes."""
    left, right = across
    drawn = [
        marks.strokes(columns["marks"], "marks", color=theme.INK, line_dash="4 3"),
        marks.lines(columns["lines"], "lines"),
        marks.words(columns["names"], "names"),
        marks.words(columns["mark_words"], "mark_words", text_color=theme.INK),
    ]
    return marks.bare(
        hv.Overlay(drawn),
        xlim=(left, right + ROOM * (right - left)),
        ylim=limits,
        xlabel=xlabel,
        ylabel=ylabel,
        **settings,
    )
