"""One option at one place: an aligned bar a factor, worst first, each figure in its unit."""

from collections.abc import Sequence

import holoviews as hv
import numpy as np

from dashboard import theme
from dashboard.live import Layers
from dashboard.plots import marks

NAMES, BARS, BARS_END, END = 0.0, 150.0, 350.0, 540.0
HALF = 0.3


def worst_first(desirability: np.ndarray) -> np.ndarray:
    """Factors from the least desirable figure to the most; the unknown last."""
    return np.argsort(np.where(np.isnan(desirability), np.inf, desirability), kind="stable")


def factor_at(desirability: np.ndarray, y: float) -> int | None:
    """Factor whose row holds the height `y`, None outside the rows."""
    row = round(y)
    return int(worst_first(desirability)[row]) if 0 <= row < len(desirability) else None


def layers(
    desirability: np.ndarray, texts: Sequence[str], labels: Sequence[str],
    colours: Sequence[str], chosen: int,
) -> Layers:  # fmt: skip
    """Columns of the plot: desirability (factor,) [0 to 1] and the words beside each bar."""
    order = worst_first(desirability)
    y = np.arange(len(order), dtype=float)
    length = np.nan_to_num(np.asarray(desirability, float)[order])
    right = BARS + (BARS_END - BARS) * length
    row = float(np.flatnonzero(order == chosen)[0])
    return {
        "chosen": {"left": [NAMES], "right": [END], "bottom": [row + 0.5], "top": [row - 0.5]},
        "track": {
            "left": np.full(len(y), BARS),
            "right": np.full(len(y), BARS_END),
            "bottom": y + HALF,
            "top": y - HALF,
        },
        "bars": {
            "left": np.full(len(y), BARS),
            "right": right,
            "bottom": y + HALF,
            "top": y - HALF,
            "fill_color": [colours[factor] for factor in order],
        },
        "names": {
            "x": np.full(len(y), NAMES + 6),
            "y": y,
            "text": [labels[factor] for factor in order],
        },
        "figures": {
            "x": np.full(len(y), BARS_END + 8),
            "y": y,
            "text": [texts[factor] for factor in order],
        },
    }


def plot(columns: Layers) -> hv.Overlay:
    """Bars of one option, drawn from `layers`."""
    marked = [
        marks.bars(columns["chosen"], "chosen", fill_color="#eceff0"),
        marks.outlines(columns["track"], "track", line_color=theme.FAINT),
        marks.bars(columns["bars"], "bars"),
        marks.words(columns["names"], "names", text_color=theme.INK),
        marks.words(columns["figures"], "figures", text_color=theme.INK),
    ]
    return marks.bare(
        hv.Overlay(marked),
        xlim=(NAMES, END),
        ylim=(-0.6, len(columns["names"]["y"]) - 0.4),
        invert_yaxis=True,
        xaxis=None,
        yaxis=None,
    )
