"""Trees side by side from the side, drawn to one scale with somebody standing by."""

from collections.abc import Sequence

import holoviews as hv
import numpy as np
from numpy.typing import ArrayLike

from dashboard import theme
from dashboard.live import Layers
from dashboard.plots import marks

STEM = 0.15  # share of the height below the crown, as it is drawn
GAP = 1.0  # [m] between two crowns, to walk in
PERSON, WIDE = 1.7, 0.45  # [m]


def layers(height: ArrayLike, spread: ArrayLike, names: Sequence[str], room: ArrayLike) -> Layers:
    """Columns of the plot: trees of some height and spread (tree,) [m], each in its room [m]."""
    tall, wide, slots = (np.asarray(one, dtype=float) for one in (height, spread, room))
    ends = np.cumsum(slots + GAP)
    x = ends - GAP - slots / 2
    base = STEM * tall
    return {
        "rooms": {
            "left": x - slots / 2,
            "right": x + slots / 2,
            "bottom": np.full(x.size, -0.15),
            "top": np.zeros(x.size),
        },
        "stems": {"x0": x, "x1": x, "y0": np.zeros(x.size), "y1": base},
        "crowns": {"left": x - wide / 2, "right": x + wide / 2, "bottom": base, "top": tall},
        "person": {"left": [-1.5], "right": [-1.5 + WIDE], "bottom": [0.0], "top": [PERSON]},
        "sizes": {
            "x": x,
            "y": tall + 0.35,
            "text": [f"{h:.1f} × {w:.1f} m" for h, w in zip(tall, wide, strict=True)],
        },
        "names": {"x": x, "y": np.full(x.size, -0.75), "text": list(names)},
    }


def plot(columns: Layers, across: float, top: float) -> hv.Overlay:
    """Trees drawn from `layers`; the plot is `across` wide and shows heights up to `top` [m]."""
    centred = {"text_align": "center", "text_color": theme.INK}
    drawn = [
        marks.bars(columns["rooms"], "rooms", fill_color=theme.FAINT),
        marks.strokes(columns["stems"], "stems", color=theme.INK, line_width=4),
        marks.dressed(
            marks.bars(columns["crowns"], "crowns", fill_color=theme.FAMILY_COLOURS["ground"]),
            border_radius=14,
        ),
        marks.dressed(
            marks.bars(columns["person"], "person", fill_color=theme.ACCENT), border_radius=6
        ),
        marks.words(columns["sizes"], "sizes", **centred),
        marks.words(columns["names"], "names", **centred),
    ]
    return marks.bare(
        hv.Overlay(drawn),
        xlim=(-2.5, across),
        ylim=(-1.2, top),
        xaxis=None,
        xlabel="",
        ylabel="metres",
    )
