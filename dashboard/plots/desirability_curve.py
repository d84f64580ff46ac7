"""How a figure is valued: a factor's desirability curve with the present value marked."""

from typing import Any

import holoviews as hv
import numpy as np

from dashboard import theme
from dashboard.live import Layers
from dashboard.plots import marks
from model.language import _


def measure_range(curve: Any, value: float, spread: Any) -> tuple[float, float]:
    """Range of the measure that holds the knots, the ground's spread and the value here."""
    known = [x for x in (*curve.x, spread.low, spread.high, value) if np.isfinite(x)]
    room = 0.04 * ((max(known) - min(known)) or 1.0)
    return min(known) - room, max(known) + room


def layers(curve: Any, value: float, desirability: float, spread: Any, text: str) -> Layers:
    """Columns of the plot for one factor, one option, one place."""
    low, high = measure_range(curve, value, spread)
    known = bool(np.isfinite(value))
    x, y = (float(value), float(desirability)) if known else (np.nan, np.nan)
    knots = {"x": np.asarray(curve.x, float), "y": np.asarray(curve.y, float)}
    left_half = known and x < (low + high) / 2
    return {
        "spread": {"left": [spread.low], "right": [spread.high], "bottom": [0.0], "top": [0.05]},
        "curve": {
            "xs": [np.concatenate([[low], knots["x"], [high]])],
            "ys": [np.concatenate([[knots["y"][0]], knots["y"], [knots["y"][-1]]])],
        },
        "knots": knots,
        "now": {"x0": [x], "x1": [x], "y0": [0.0], "y1": [y]},
        "here": {"x": np.asarray([x]), "y": np.asarray([y])},
        "words": {
            "x": [x if known else (low + high) / 2],
            "y": [y if known else 0.5],
            "text": [f"  {text}  "],
            "text_align": ["left" if left_half else "right"],
        },
    }


def plot(columns: Layers) -> hv.Overlay:
    """Desirability curve drawn from `layers`."""
    marked = [
        marks.bars(columns["spread"], "spread", fill_color=theme.FAINT),
        marks.strokes(columns["now"], "now", color=theme.ACCENT, line_dash="4 3"),
        marks.lines(columns["curve"], "curve", color=theme.QUIET, line_width=2),
        marks.dots(
            columns["knots"], "knots",
            size=8, fill_color=theme.PAPER, line_color=theme.QUIET, line_width=2,
        ),
        marks.dots(columns["here"], "here", size=12, fill_color=theme.ACCENT, line_color=None),
        marks.words(columns["words"], "words", text_color=theme.ACCENT, text_font_style="bold"),
    ]  # fmt: skip
    return marks.bare(
        hv.Overlay(marked),
        xlim=(0, 1),
        ylim=(-0.02, 1.16),
        yticks=[(0, "0"), (0.5, "0.5"), (1, "1")],
        xticks=4,
        xlabel="",
        ylabel=_("worth"),
    )
