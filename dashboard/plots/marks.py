"""Marks that plots are made of: each a HoloViews element from columns named after its glyph."""

from typing import Any

import holoviews as hv
from bokeh.core.properties import value
from bokeh.core.property.vectorization import Field
from bokeh.models import CustomJS

from dashboard import theme
from dashboard.live import Columns

hv.extension("bokeh", logo=False)
# Small plots are drawn faster on a plain canvas, many times so where there is no graphics card.
hv.renderer("bokeh").webgl = False


def bars(columns: Columns, label: str, **style: Any) -> hv.Rectangles:
    """Boxes from `left`, `bottom`, `right`, `top`."""
    edges = tuple(columns[edge] for edge in ("left", "bottom", "right", "top"))
    return hv.Rectangles(edges, label=label).opts(line_color=None, show_legend=False, **style)


def outlines(columns: Columns, label: str, **style: Any) -> hv.Rectangles:
    """Boxes drawn by their edge alone."""
    edges = tuple(columns[edge] for edge in ("left", "bottom", "right", "top"))
    return hv.Rectangles(edges, label=label).opts(fill_color=None, show_legend=False, **style)


def words(columns: Columns, label: str, **style: Any) -> hv.Labels:
    """Words at `x`, `y` from `text`."""
    points = (columns["x"], columns["y"], columns["text"])
    settled = {
        "text_font_size": "12px",
        "text_align": "left",
        "text_baseline": "middle",
        **style,
    }
    drawn = hv.Labels(points, label=label).opts(show_legend=False, **settled)
    return dressed(drawn, text_font=value(theme.FONT))


def lines(columns: Columns, label: str, **style: Any) -> hv.Path:
    """One line for each entry of `xs`, `ys`."""
    paths = [{"x": x, "y": y} for x, y in zip(columns["xs"], columns["ys"], strict=True)]
    return hv.Path(paths, ["x", "y"], label=label).opts(show_legend=False, **style)


def strokes(columns: Columns, label: str, **style: Any) -> hv.Segments:
    """Straight strokes from `x0`, `y0` to `x1`, `y1`."""
    ends = tuple(columns[end] for end in ("x0", "y0", "x1", "y1"))
    return hv.Segments(ends, label=label).opts(show_legend=False, **style)


def dots(columns: Columns, label: str, **style: Any) -> hv.Points:
    """Dots at `x`, `y`."""
    return hv.Points((columns["x"], columns["y"]), label=label).opts(show_legend=False, **style)


def dressed(element: hv.Element, **properties: Any) -> hv.Element:
    """Element whose glyph also has properties that HoloViews does not know by name."""

    def dress(plot: Any, _element: Any) -> None:
        plot.handles["glyph"].update(**properties)

    return element.opts(hooks=[*hooks(element), dress])


def styled(element: hv.Element, columns: Columns, **style: Any) -> hv.Element:
    """Element whose every row has a style of its own, from columns named after the glyph's.

    A column that is no style is there for the tooltip.
    """

    def dress(plot: Any, _element: Any) -> None:
        source, glyph = plot.handles["source"], plot.handles["glyph"]
        source.data = dict(source.data) | {name: list(values) for name, values in columns.items()}
        glyph.update(**{name: Field(name) for name in columns.keys() & glyph.properties()})

    return element.opts(hooks=[*hooks(element), dress], show_legend=False, **style)


def above(element: hv.Element) -> hv.Element:
    """Element on the plot's upper canvas, which is not painted again when the lower one changes.

    What a slider moves stays on the lower canvas; this is for what stands still meanwhile.
    """

    def lift(plot: Any, _element: Any) -> None:
        plot.handles["glyph_renderer"].level = "overlay"

    return element.opts(hooks=[*hooks(element), lift])


def fitted(element: hv.Element, least: int = 460) -> hv.Element:
    """Words that take their `short` form where the plot is narrower than `least` [px]."""

    def fit(plot: Any, _element: Any) -> None:
        figure, glyph = plot.state, plot.handles["glyph"]
        code = f"glyph.text = {{field: fig.inner_width < {least} ? 'short' : 'text'}}"
        figure.js_on_change(
            "inner_width", CustomJS(args={"fig": figure, "glyph": glyph}, code=code)
        )

    return element.opts(hooks=[*hooks(element), fit])


def hooks(element: hv.Element) -> list[Any]:
    """Hooks that an element has already."""
    return hv.Store.lookup_options("bokeh", element, "plot").kwargs.get("hooks", [])


def bare(overlay: hv.Overlay, **settings: Any) -> hv.Overlay:
    """Overlay without toolbar, legend or frame, as wide as its place on the page."""
    settled = {
        "responsive": True,
        "min_height": 60,
        "toolbar": None,
        "show_legend": False,
        "default_tools": [],
        "active_tools": [],
        "shared_axes": False,
        "axiswise": True,
        "border": 0,
        **settings,
    }
    return overlay.opts(**settled)
