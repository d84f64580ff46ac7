"""Options by a share of something, one bar each, those ruled out left empty."""

from collections.abc import Sequence

import holoviews as hv
import numpy as np
from numpy.typing import ArrayLike

from dashboard import theme
from dashboard.live import Layers
from dashboard.plots import marks

HALF = 0.36
ROOM = 0.45  # of the axis, kept free at the left for the names


def layers(values: ArrayLike, names: Sequence[str]) -> Layers:
    """Columns of the plot: a bar for each value (option,) of 100, NaN where ruled out."""
    shares = np.asarray(values, dtype=float)
    y = np.arange(shares.size, dtype=float)
    known = np.isfinite(shares)
    length = np.where(known, shares, 0.0)
    first = known & (length == length.max(initial=0.0)) & (length > 0)
    said = [f"{share:.0f}" if ok else "ruled out" for share, ok in zip(shares, known, strict=True)]
    return {
        "bars": {
            "left": np.zeros(y.size),
            "right": length,
            "bottom": y + HALF,
            "top": y - HALF,
            "fill_color": [theme.LEADER if one else theme.CONTENDER for one in first],
        },
        "names": {"x": np.full(y.size, -1.0), "y": y, "text": list(names)},
        "figures": {"x": length + 1, "y": y, "text": said},
    }


def plot(columns: Layers, label: str) -> hv.Overlay:
    """Bars drawn from `layers`; `label` says of what they are shares."""
    drawn = [
        marks.bars(columns["bars"], "bars"),
        marks.words(columns["names"], "names", text_align="right", text_color=theme.INK),
        marks.words(columns["figures"], "figures", text_color=theme.INK),
    ]
    return marks.bare(
        hv.Overlay(drawn),
        xlim=(-100 * ROOM, 110),
        ylim=(-0.7, len(columns["names"]["y"]) - 0.3),
        invert_yaxis=True,
        yaxis=None,
        xticks=[0, 25, 50, 75, 100],
        xlabel=label,
    )
