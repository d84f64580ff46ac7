"""Trees side by side from the side, drawn to one scale with somebody standing by."""

from collections.abc import Sequence
from typing import Any

import holoviews as hv
import numpy as np
from bokeh.models import CustomJS
from numpy.typing import ArrayLike

from dashboard import theme
from dashboard.live import Layers
from dashboard.plots import marks
from dashboard.plots.site_map import EQUAL_SCALE

STEM = 0.15  # share of the height below the crown, as it is drawn
GAP = 1.0  # [m] between two crowns, to walk in
LEAST = 2.8  # [m] given to a tree, so that its figures have room
PERSON, WIDE = 1.7, 0.45  # [m]
LEFT, FOOT = -2.5, -3.5  # [m] where the plot begins


def layers(height: ArrayLike, spread: ArrayLike, names: Sequence[str], room: ArrayLike) -> Layers:
    """Columns of the plot: trees of some height and spread (tree,) [m], each in its room [m]."""
    tall, wide, slots = (np.asarray(one, dtype=float) for one in (height, spread, room))
    given = np.maximum(slots, LEAST)
    x = np.cumsum(given + GAP) - GAP - given / 2
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
        "heights": {"x": x, "y": tall + 0.9, "text": [f"{height:.1f}" for height in tall]},
        "names": {"x": x, "y": np.full(x.size, -1.2), "text": list(names)},
        "widths": {
            "x": x,
            "y": np.full(x.size, -2.7),
            "text": [f"↔ {width:.1f}" for width in wide],
        },
    }


def plot(columns: Layers, across: float, top: float) -> hv.Overlay:
    """Trees drawn from `layers`; the plot is `across` wide and shows heights up to `top` [m]."""
    centred = {"text_align": "center", "text_color": theme.INK, "text_font_size": "11px"}
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
        marks.words(columns["heights"], "heights", **centred),
        marks.words(columns["names"], "names", **centred),
        marks.words(columns["widths"], "widths", **centred),
    ]
    return marks.bare(
        hv.Overlay(drawn),
        xlim=(LEFT, across),
        ylim=(FOOT, top),
        xaxis=None,
        yticks=[0, 5, 10],
        xlabel="",
        ylabel="metres",
        hooks=[equal_scale(across, top)],
    )


def equal_scale(across: float, top: float) -> Any:
    """Hook that draws a metre up as long as a metre along, however wide the plot is."""
    frame = {
        "x": (across + LEFT) / 2,
        "y": (FOOT + top) / 2,
        "width": across - LEFT,
        "height": top - FOOT,
    }

    def add(plot: Any, _element: Any) -> None:
        fit = CustomJS(args={"fig": plot.state, **frame}, code=EQUAL_SCALE)
        plot.state.js_on_change("inner_width", fit)
        plot.state.js_on_change("inner_height", fit)

    return add
