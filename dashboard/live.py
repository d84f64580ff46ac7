"""New data into a plot that is already drawn: the path of a slider, which never rebuilds.

A plot is a function from columns to a HoloViews overlay whose layers carry a label.
`Drawing` renders it once and from then on only replaces columns. A column named after a
property of the layer's glyph (`left`, `fill_color`, `text`) drives that property.
"""

from collections.abc import Callable, Mapping
from typing import Any
from weakref import WeakSet

import holoviews as hv
import numpy as np
import panel as pn
from bokeh.core.property.vectorization import Field
from bokeh.models import ColumnDataSource

SHORT = 2000  # values
Columns = Mapping[str, Any]
Layers = Mapping[str, Columns]


def same(old: Any, new: Any) -> bool:
    """Whether two columns hold the same values, so that nothing need be sent."""
    if isinstance(new, np.ndarray) or isinstance(old, np.ndarray):
        old, new = np.asarray(old), np.asarray(new)
        exact = old.dtype.kind in "OUSb" or new.dtype.kind in "OUSb"
        return old.shape == new.shape and np.array_equal(old, new, equal_nan=not exact)
    if isinstance(new, list | tuple):
        return len(old) == len(new) and all(map(same, old, new))
    return bool(old == new)


def sent(column: Any) -> Any:
    """Column as it is sent: a short one as plain numbers, since every array is a message more."""
    short = isinstance(column, np.ndarray) and column.ndim == 1 and column.size <= SHORT
    return column.tolist() if short else column


class Drawing:
    """A plot rendered once, whose columns are replaced when something moves.

    Each source of data is called by the drawing's name and its layer's: 'map score'.
    """

    def __init__(self, name: str, element: hv.Overlay, layers: Layers, **pane: Any) -> None:
        self._begin(name, layers)
        self.element = element
        for layer in element:
            if layer.label in self.layers:
                styled = hv.Store.lookup_options("bokeh", layer, "plot").kwargs.get("hooks", [])
                layer.opts(hooks=[*styled, self._hook(layer.label)])
        self.view: Any = pn.pane.HoloViews(element, linked_axes=False, **pane)

    def _begin(self, name: str, layers: Layers) -> None:
        self.name = name
        self.layers = {name: dict(columns) for name, columns in layers.items()}
        self._settings: dict[str, dict[str, Any]] = {}
        self._sources: dict[str, WeakSet[ColumnDataSource]] = {name: WeakSet() for name in layers}
        self._parts: dict[str, WeakSet[Any]] = {}

    def drawn(self) -> tuple[dict[str, Any], dict[str, Any]]:
        """The source of each layer and each part of the figure, as it was drawn at last."""
        sources = {name: next(iter(found)) for name, found in self._sources.items() if found}
        return sources, {part: next(iter(found)) for part, found in self._parts.items() if found}

    def write(self, layers: Layers) -> None:
        """Replace the columns of the named layers wherever the plot is drawn."""
        for name, columns in layers.items():
            known = self.layers[name]
            if columns.keys() == known.keys() and same(
                list(known.values()), list(columns.values())
            ):
                continue
            self.layers[name] = dict(columns)
            for source in self._sources[name]:
                source.data = {column: sent(values) for column, values in columns.items()}

    def adjust(self, part: str, **settings: Any) -> None:
        """Set properties of a part of the figure: x_range, y_range, xaxis, colour_scale, title."""
        known = self._settings.setdefault(part, {})
        if all(key in known and known[key] == value for key, value in settings.items()):
            return
        known.update(settings)
        for model in self._parts.get(part, ()):
            model.update(**settings)

    def on_tap(self, layer: str, act: Callable[[float, float], None]) -> None:
        """Call `act` with the data coordinates of a tap or click on the plot."""
        source = next(one for one in self.element if one.label == layer)
        tap = hv.streams.Tap(source=source, x=None, y=None)
        self._tap = tap
        tap.add_subscriber(lambda x, y: act(x, y) if x is not None and y is not None else None)

    def _hook(self, name: str) -> Callable[[Any, Any], None]:
        def attach(plot: Any, _element: Any) -> None:
            source, glyph = plot.handles["source"], plot.handles["glyph"]
            renderer = plot.handles["glyph_renderer"]
            renderer.update(nonselection_glyph=None, selection_glyph=None, muted_glyph=None)
            source.update(data=dict(self.layers[name]), name=f"{self.name} {name}")
            for column in set(self.layers[name]) & set(glyph.properties()):
                setattr(glyph, column, Field(column))
            self._sources[name].add(source)
            self._remember(_parts_of(plot))

        return attach

    def _remember(self, parts: Mapping[str, Any]) -> None:
        for part, model in parts.items():
            if model is not None:
                self._parts.setdefault(part, WeakSet()).add(model)
                model.update(**self._settings.get(part, {}))


def _parts_of(plot: Any) -> dict[str, Any]:
    """What can be adjusted of a figure, None where it has no such part."""
    figure = plot.handles["plot"]
    return {
        "x_range": figure.x_range,
        "y_range": figure.y_range,
        "xaxis": figure.xaxis[0] if figure.xaxis else None,
        "colour_scale": plot.handles.get("color_mapper"),
        "colour_bar": plot.handles.get("colorbar"),
    }
