"""What an eye sees of the site in one year, as flat shapes in degrees, to scale."""

from collections.abc import Sequence
from typing import Any

import holoviews as hv
import numpy as np
from bokeh.models import CustomJS

from dashboard import theme
from dashboard.live import Layers
from dashboard.plots import marks, site_map
from dashboard.plots.shapes import patches

SKY = "#e9f1f7"
# kind: fill, opacity, edge
LOOKS = {
    "ground": ("#d9d6c6", 1.0, "#c9c5b1"),
    "building": ("#a7adb1", 1.0, theme.INK),
    "wall": ("#8f8a80", 1.0, theme.INK),
    "hedge": ("#6f8a6a", 1.0, "#35543a"),
    "woodland": ("#7f967f", 1.0, "#35543a"),
    "neighbour": ("#5d7a60", 0.9, "#35543a"),
    "stem": ("#5b4a38", 1.0, "#5b4a38"),
    "crown": ("#6fae5a", 0.92, "#1d4d1f"),
    "person": (theme.FAMILY_COLOURS["place"], 1.0, theme.PAPER),
}
COMPASS = ("N", "NNE", "NE", "ENE", "E", "ESE", "SE", "SSE",
           "S", "SSW", "SW", "WSW", "W", "WNW", "NW", "NNW")  # fmt: skip
POINT = 22.5  # [degrees] from one point of the compass to the next
LETTER = 0.011  # of the field's width that a letter of a label takes up
LINE = 0.034  # of the field's width that a line of a label is high
LEAST_LOW, LEAST_HIGH, MOST_HIGH = -7.0, 9.0, 42.0  # [degrees]

FIT = """
const w = fig.inner_width, h = fig.inner_height, at = source.data
if (!(w > 0 && h > 0) || !at.width || !at.width.length) return
const s = Math.max(at.width[0] / w, at.height[0] / h)
const x = at.x[0], y = at.y[0] + s * h / 2
fig.x_range.setv({start: x - s * w / 2, end: x + s * w / 2})
fig.y_range.setv({start: y - s * h / 2, end: y + s * h / 2})
"""


def scene(shapes: Sequence[Any]) -> Layers:
    """Columns of the shapes, the farthest first."""
    looks = [LOOKS[shape.kind] for shape in shapes]
    return {
        "scene": {
            "xs": [shape.across.round(2).tolist() for shape in shapes],
            "ys": [shape.up.round(2).tolist() for shape in shapes],
            "fill_color": [look[0] for look in looks],
            "fill_alpha": [look[1] for look in looks],
            "line_color": [look[2] for look in looks],
        }
    }


def labels(found: Sequence[tuple[Any, str]], width: float) -> Layers:
    """Columns of words over shapes, one above another where they would cover one another."""
    placed: list[tuple[float, float, float]] = []
    columns: dict[str, list[Any]] = {"x": [], "y": [], "text": []}
    for shape, text in sorted(found, key=lambda one: one[0].top):
        x = float((shape.across.min() + shape.across.max()) / 2)
        half, line = len(text) * LETTER * width / 2, LINE * width
        y = shape.top + line * 0.7
        for other, across, up in sorted(placed, key=lambda one: one[2]):
            if abs(x - across) < half + other and abs(y - up) < line:
                y = up + line
        placed.append((half, x, y))
        columns["x"].append(x)
        columns["y"].append(y)
        columns["text"].append(text)
    return {"labels": columns}


def person_words(person: Any, text: str, width: float) -> Layers:
    """Columns of the person's height, under the feet."""
    if person is None:
        return {"person_words": {"x": [], "y": [], "text": []}}
    middle = float((person.across.min() + person.across.max()) / 2)
    foot = float(person.up.min()) - LINE * width / 2
    return {"person_words": {"x": [middle], "y": [foot], "text": [text]}}


def still(eye: Any, grown: Sequence[Any]) -> Layers:
    """Columns of what does not change with the years: the field, the compass, the window."""
    tops = [shape.top for shape in grown if abs(shape.across.mean()) < eye.width / 2]
    feet = [float(s.up.min()) for s in grown if s.kind == "stem" and s.tree >= 0]
    high = float(np.clip(max(tops, default=0.0) + 0.06 * eye.width, LEAST_HIGH, MOST_HIGH))
    low = float(np.clip(min(feet, default=0.0) - 2.5, -20.0, LEAST_LOW))
    window = eye.view.window if eye.view is not None else None
    frame: dict[str, list[float]] = {"left": [], "right": [], "bottom": [], "top": []}
    if window is not None:
        low, high = min(low, window.low - 1.5), max(high, window.high + 0.05 * eye.width)
        frame = {
            "left": [-window.width / 2],
            "right": [window.width / 2],
            "bottom": [window.low],
            "top": [window.high],
        }
    low -= LINE * eye.width
    points = np.arange(16) * POINT
    turn = (points - eye.bearing + 180) % 360 - 180
    seen = np.flatnonzero(np.abs(turn) < 0.48 * eye.width)
    return {
        "field": {"x": [0.0], "y": [low], "width": [eye.width], "height": [high - low]},
        "window": frame,
        "compass": {
            "x": turn[seen],
            "y": np.full(seen.size, low + LINE * eye.width / 2),
            "text": [COMPASS[n] for n in seen],
        },
    }


def window_words(eye: Any, text: str) -> Layers:
    """Columns of what is written at the upper edge of the window."""
    if eye.view is None:
        return {"window_words": {"x": [], "y": [], "text": []}}
    window = eye.view.window
    return {
        "window_words": {
            "x": [-window.width / 2],
            "y": [window.high + LINE * eye.width / 2],
            "text": [text],
        }
    }


def plot(columns: Layers) -> hv.Overlay:
    """Elevation drawn from the columns."""
    words = {"text_align": "center", "text_color": theme.INK}
    drawn = [
        patches("scene", line_width=1),
        hv.Points((columns["field"]["x"], columns["field"]["y"]), label="field").opts(
            alpha=0, show_legend=False, hooks=[_fit]
        ),
        marks.outlines(columns["window"], "window").opts(
            line_color=theme.ACCENT, line_width=2, line_dash="8 4"
        ),
        marks.dressed(
            marks.words(
                columns["window_words"], "window_words", text_color=theme.ACCENT,
                text_font_style="bold",
            ),
            **site_map.PLATE,
        ),
        marks.dressed(
            marks.words(columns["labels"], "labels", text_font_style="bold", **words),
            **site_map.PLATE,
        ),
        marks.words(columns["person_words"], "person_words", text_font_style="bold", **words),
        marks.words(columns["compass"], "compass", **words),
    ]  # fmt: skip
    field = columns["field"]
    return marks.bare(
        hv.Overlay(drawn),
        xaxis=None,
        yaxis=None,
        show_frame=False,
        xlim=(-field["width"][0] / 2, field["width"][0] / 2),
        ylim=(field["y"][0], field["y"][0] + field["height"][0]),
    )


def _fit(plot: Any, _element: Any) -> None:
    """Bring the field into view at equal scales, now and when it or the page changes."""
    figure, source = plot.state, plot.handles["source"]
    figure.background_fill_color = SKY
    fit = CustomJS(args={"fig": figure, "source": source}, code=FIT)
    figure.js_on_change("inner_width", fit)
    figure.js_on_change("inner_height", fit)
    source.js_on_change("data", fit)
