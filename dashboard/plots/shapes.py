"""Shapes in the units of a plot: circles of a radius, and areas by their corners."""

from typing import Any

import holoviews as hv
from bokeh.models import Circle, Patches

from dashboard.live import Columns


def discs(columns: Columns, label: str, **style: Any) -> hv.Points:
    """Circles at `x`, `y` of a `radius` in the units of the plot, drawn as `style` says."""
    element = hv.Points((columns["x"], columns["y"]), label=label)
    return _drawn_by(element, Circle, x="x", y="y", radius="radius", **style)


def patches(label: str, **style: Any) -> hv.Points:
    """Areas with the corners `xs`, `ys`, drawn one over another in their order."""
    return _drawn_by(hv.Points([], label=label), Patches, xs="xs", ys="ys", **style)


def _drawn_by(element: hv.Points, kind: type, **properties: Any) -> hv.Points:
    """Points drawn by a glyph that HoloViews has no element for."""

    def draw(plot: Any, _element: Any) -> None:
        glyph = kind(**properties)
        plot.handles["glyph_renderer"].glyph = glyph
        plot.handles["glyph"] = glyph

    return element.opts(show_legend=False, hooks=[draw])
