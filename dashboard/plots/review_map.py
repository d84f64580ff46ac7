"""The land with the trees of the plan, and an arrow from old peg to new for each that moves."""

from collections.abc import Iterable, Sequence
from typing import Any

import holoviews as hv
import numpy as np

from dashboard import theme
from dashboard.live import Layers
from dashboard.plots import marks, survey_marks
from dashboard.plots.site_map import furniture, peg_columns
from model.planting.year_after.keep_or_move import Judged

SHORT = 2.2  # [m] that an arrow keeps from the middle of either peg
NAME = {"text_align": "center", "text_font_style": "bold"}
PLATE = {"background_fill_color": theme.PAPER, "background_fill_alpha": 0.8, "padding": 1}


def layers(places: Any, trees: Sequence[Judged], options: Sequence[Any] = ()) -> Layers:
    """Columns of what a review changes on the map; a tree at no peg goes by its cultivar."""
    movers = [one for one in trees if one.advice != "keep" and one.there is not None]
    here = np.array([one.tree.place for one in movers], dtype=int)
    there = np.array([one.there.place for one in movers if one.there], dtype=int)
    x0, y0, x1, y1 = places.x[here], places.y[here], places.x[there], places.y[there]
    length = np.maximum(np.hypot(x1 - x0, y1 - y0), 1e-6)
    east, north = (x1 - x0) / length, (y1 - y0) / length
    pegs = set(places.spots)
    stand = np.array([one.tree.place for one in trees], dtype=int)
    dash = ["solid" if one.advice == "move" else "dashed" for one in movers]
    ends = {"x1": x1 - SHORT * east, "y1": y1 - SHORT * north}
    return {
        "moves": {"x0": x0 + SHORT * east, "y0": y0 + SHORT * north, **ends, "line_dash": dash},
        "heads": {
            "x": ends["x1"],
            "y": ends["y1"],
            "angle": np.arctan2(north, east) - np.pi / 2,
        },
        "planted": {"x": places.x[stand], "y": places.y[stand]},
        "tree_names": {
            "x": places.x[stand],
            "y": places.y[stand],
            "text": [
                one.tree.spot if one.tree.spot in pegs else options[one.tree.option].cultivar
                for one in trees
            ],
        },
        "goals": {
            "x": x1,
            "y": y1,
            "text": [places.short_name(place) for place in there],
        },
    }


def plot(columns: Layers, features: Iterable[Any], places: Any, feet: bool = False) -> hv.Overlay:
    """Map drawn from `layers` over the survey's features."""
    width, height = places.shape[1] * places.cell, places.shape[0] * places.cell
    arrow = {"line_color": theme.ACCENT, "line_width": 3}
    drawn = [
        *survey_marks.elements(features),
        marks.dots(
            peg_columns(places), "pegs", marker="square", size=8,
            fill_color=theme.PAPER, line_color=theme.QUIET,
        ),
        marks.strokes(columns["moves"], "moves", **arrow),
        marks.dots(
            columns["heads"], "heads", marker="triangle", size=14,
            fill_color=theme.ACCENT, line_color=theme.ACCENT,
        ),
        marks.dots(
            columns["planted"], "planted", size=15, fill_color="#5d8a55", line_color=theme.INK
        ),
        marks.dressed(
            marks.words(columns["tree_names"], "tree_names", **NAME, text_color=theme.INK),
            y_offset=18, **PLATE,
        ),
        marks.dressed(
            marks.words(columns["goals"], "goals", **NAME, text_color=theme.ACCENT),
            y_offset=18, **PLATE,
        ),
    ]  # fmt: skip
    return marks.bare(
        hv.Overlay(drawn),
        xlim=(places.left, places.left + width),
        ylim=(places.bottom, places.bottom + height),
        xaxis=None,
        yaxis=None,
        hooks=[furniture(places, feet)],
    )
