"""The site from above in one year: shade, roots, crowns to scale, and where room has run out."""

from collections.abc import Iterable, Sequence
from typing import Any

import holoviews as hv
import numpy as np

from dashboard import theme
from dashboard.live import Layers
from dashboard.plots import marks, site_map, survey_marks
from dashboard.plots.shapes import discs

# From shade to sun: light enough for ink on it, told apart by lightness alone.
LIGHT = ("#9aa1ad", "#a9aeb6", "#b8bbbf", "#c7c8c8", "#d6d5d1", "#e5e2da", "#f4efe3", "#fffaea")
OURS, EDGE = "#6fae5a", "#1d4d1f"
ROOTS = "#7a4f16"
GAZE = theme.FAMILY_COLOURS["place"]
LOOK = 16.0  # [m] of the lines that show where the eye looks


def layers(stand: Any, crowns: Any, grown: Any) -> Layers:
    """Columns of the trees in one year and, `grown`, at the end."""
    new = slice(0, stand.new)
    old = slice(stand.new, None)
    return {
        "roots": circles(stand, crowns.reach),
        "neighbours": circles(stand, crowns.spread / 2, old),
        "full": circles(stand, grown.spread / 2),
        "crowns": circles(stand, crowns.spread / 2, new),
        "numbers": {
            "x": stand.x[new],
            "y": stand.y[new],
            "text": [str(number + 1) for number in range(stand.new)],
        },
    }


def circles(
    stand: Any, radius: np.ndarray, part: slice | np.ndarray = slice(None)
) -> dict[str, np.ndarray]:
    """Circles round some of the trees."""
    return {"x": stand.x[part], "y": stand.y[part], "radius": radius[part]}


def light(share: np.ndarray, places: Any) -> Layers:
    """Columns of the sun and shadow (place,), 0 to 1."""
    ny, nx = places.shape
    return {
        "shade": {
            "image": [places.grid(np.where(places.inside, share, np.nan).astype(np.float32))],
            "x": [places.left],
            "y": [places.bottom],
            "dw": [nx * places.cell],
            "dh": [ny * places.cell],
        }
    }


def met(stand: Any, crowns: Any, found: Sequence[Any], words: Sequence[str]) -> Layers:
    """Columns of the crowns that have no room left: a mark between two, a word beside."""
    x, y = [], []
    for meeting in found:
        first, second = meeting.first, meeting.second
        share = 0.0
        if second >= 0:
            spread = crowns.spread
            share = spread[first] / max(spread[first] + spread[second], 1e-9)
        x.append(float(stand.x[first] + share * (stand.x[second] - stand.x[first])))
        y.append(float(stand.y[first] + share * (stand.y[second] - stand.y[first])))
    pairs = [number for number, meeting in enumerate(found) if meeting.second >= 0]
    tight = sorted({meeting.first for meeting in found})
    return {
        "tight": circles(stand, crowns.spread / 2, np.array(tight, dtype=int)),
        "met": {"x": [x[n] for n in pairs], "y": [y[n] for n in pairs]},
        "met_words": {
            "x": [x[n] for n in pairs],
            "y": [y[n] for n in pairs],
            "text": [words[n] for n in pairs],
        },
    }


def gaze(eye: Any) -> Layers:
    """Columns of the eye of the side elevation and the edges of what it sees."""
    turns = np.radians(eye.bearing + np.array([-0.5, 0.5]) * eye.width)
    return {
        "eye": {"x": [eye.x], "y": [eye.y]},
        "gaze": {
            "x0": [eye.x, eye.x],
            "y0": [eye.y, eye.y],
            "x1": eye.x + LOOK * np.sin(turns),
            "y1": eye.y + LOOK * np.cos(turns),
        },
    }


def plot(columns: Layers, features: Iterable[Any], places: Any, feet: bool = False) -> hv.Overlay:
    """Map drawn from the columns over the survey's features, its scale in metres or feet."""
    still = [feature for feature in features if feature.kind != "neighbour_tree"]
    image = hv.Image(
        (places.columns, places.rows, columns["shade"]["image"][0]),
        ["x", "y"],
        "light",
        label="shade",
    )
    ink = {"text_color": theme.INK, "text_align": "center", "text_font_style": "bold"}
    drawn = [
        image.opts(cmap=list(LIGHT), clim=(0, 1), show_legend=False, colorbar=False),
        *survey_marks.elements(still, site_map.extent(places)),
        discs(
            columns["roots"], "roots",
            fill_color=None, line_color=ROOTS, line_width=1.2, line_dash="2 4",
        ),
        discs(
            columns["neighbours"], "neighbours",
            fill_color="#5d7a60", fill_alpha=0.7, line_color=survey_marks.GREEN, line_width=1.2,
        ),
        discs(
            columns["crowns"], "crowns",
            fill_color=OURS, fill_alpha=0.85, line_color=EDGE, line_width=2,
        ),
        discs(
            columns["full"], "full",
            fill_color=None, line_color=EDGE, line_width=1.2, line_dash="7 4",
        ),
        discs(
            columns["tight"], "tight",
            fill_color=None, line_color=theme.ACCENT, line_width=3, line_dash="10 3",
        ),
        marks.dressed(
            marks.words(columns["numbers"], "numbers", **ink), x_offset=15, **site_map.PLATE
        ),
        marks.strokes(columns["gaze"], "gaze", color=GAZE, line_width=2),
        marks.dots(
            columns["eye"], "eye", marker="triangle", size=13, fill_color=GAZE,
            line_color=theme.PAPER,
        ),
        marks.dots(
            columns["met"], "met", marker="x", size=13, line_color=theme.ACCENT, line_width=3
        ),
        marks.dressed(
            marks.words(columns["met_words"], "met_words", **ink | {"text_color": theme.ACCENT}),
            y_offset=16,
            **site_map.PLATE,
        ),
    ]  # fmt: skip
    width, height = places.shape[1] * places.cell, places.shape[0] * places.cell
    return marks.bare(
        hv.Overlay(drawn),
        xaxis=None,
        yaxis=None,
        show_frame=False,
        xlim=(places.left, places.left + width),
        ylim=(places.bottom, places.bottom + height),
        hooks=[site_map.furniture(places, feet)],
    )
