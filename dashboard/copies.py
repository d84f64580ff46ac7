"""A plot drawn once for all sessions that look at the same land, and copied for each of them.

To draw a map anew takes a hundred times as long as to copy the figure that came of it, and a
whole class opens the page at once.
"""

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping
from copy import copy as shallow
from dataclasses import dataclass
from typing import Any, cast
from weakref import WeakKeyDictionary

import holoviews as hv
import panel as pn
from bokeh.core.property.vectorization import Expr, Field, Value
from bokeh.document import Document
from bokeh.events import Tap
from bokeh.model import Model
from bokeh.models import AllIndices, Grid, HoverTool, UnionRenderers
from bokeh.models.renderers import GlyphRenderer

from dashboard.live import Drawing, Layers, sent
from model.language import language_code

Plot = Callable[[], hv.Overlay]
OWN = ("_id", "_callbacks", "_event_callbacks", "_document", "_temp_document")  # of each model


@dataclass(frozen=True)
class Prepared:
    """A figure as it was drawn with all its models, and some of them by layer and by part."""

    figure: Any
    models: tuple[Any, ...]
    sources: Mapping[str, Any]
    parts: Mapping[str, Any]


_PREPARED: WeakKeyDictionary[Any, dict[tuple[Any, ...], Prepared]] = WeakKeyDictionary()


class CopiedDrawing(Drawing):
    """A `Drawing` of one land whose plot is drawn for the first session and copied for others.

    `land` is what all of them look at (a ground); `like` is whatever else the plot follows from
    beside its columns.
    """

    def __init__(
        self, name: str, plot: Plot, layers: Layers, land: Any, like: tuple[Any, ...] = (),
        **pane: Any,
    ) -> None:  # fmt: skip
        self._begin(name, layers)
        known = _PREPARED.setdefault(land, {})
        key = (name, language_code(), *like)
        if key not in known:
            known[key] = _prepared(name, plot(), layers)
        self._prepared = known[key]
        self._taps: list[Callable[[float, float], None]] = []
        self.view: Any = Copies(self._copy, **pane)

    def on_tap(self, layer: str, act: Callable[[float, float], None]) -> None:  # noqa: ARG002 -- as a Drawing has it
        """Call `act` with the data coordinates of a tap or click on the plot."""
        self._taps.append(act)

    def _copy(self) -> Any:
        """A figure of its own with the columns as they are now."""
        prepared = self._prepared
        copies = copied(prepared.models)
        figure = copies[prepared.figure]
        for layer, source in prepared.sources.items():
            copy = copies[source]
            copy.data = {name: sent(values) for name, values in self.layers[layer].items()}
            self._sources[layer].add(copy)
        self._remember({part: copies[model] for part, model in prepared.parts.items()})
        for act in self._taps:
            figure.on_event(Tap, lambda event, act=act: _tapped(figure, event, act))
        return figure


class Copies(pn.pane.Bokeh):
    """A pane that makes a figure of its own wherever it is shown."""

    def __init__(self, make: Callable[[], Any], **settings: Any) -> None:
        super().__init__(None, **settings)
        self._make = make

    def _get_model(self, doc: Any, root: Any = None, parent: Any = None, comm: Any = None) -> Model:
        if root is None:
            return self.get_root(doc, comm)
        figure = self._make()
        figure.update(**{name: getattr(self, name) for name in self._overrides})
        if comm and self.autodispatch:
            self._wrap_bokeh_callbacks(root, figure, doc, comm)
        self._models[root.ref["id"]] = (figure, parent)
        theme = self._design.theme.bokeh_theme if self._design.theme is not None else None
        if theme and doc.theme is not theme:
            doc.theme = theme  # of all its plots, as HoloViews has it
        return figure


def copied(models: Iterable[Any]) -> dict[Any, Any]:
    """Models that refer to none but each other, each with a copy; only arrays are shared.

    What was set is taken over as it was checked when it was set: to check it again for every
    visitor takes longer than all the rest of their page.
    """
    copies: dict[Any, Any] = {one: Model.__new__(type(one)) for one in models}
    for one, copy in copies.items():
        state = {name: value for name, value in vars(one).items() if name not in OWN}
        fresh: dict[str, Any] = {"_callbacks": {}, "_event_callbacks": defaultdict(list)}
        nowhere = {"_document": None, "_temp_document": None}
        vars(copy).update(_in_terms_of(copies, state) | fresh | nowhere)
    return copies


def _in_terms_of(copies: Mapping[Any, Any], value: Any) -> Any:
    """A value with the copies in place of the models they are of."""
    if isinstance(value, Model):
        return copies.get(value, value)
    made: Any
    if isinstance(value, dict):
        made = type(value)({key: _in_terms_of(copies, one) for key, one in value.items()})
    elif isinstance(value, list | tuple | set):
        made = type(value)(_in_terms_of(copies, one) for one in value)
    elif isinstance(value, Field | Value | Expr):
        made = shallow(cast("Any", value))
        vars(made).update(_in_terms_of(copies, vars(value)))
    else:
        return value
    for owner, descriptor in getattr(value, "_owners", ()):
        made._register_owner(copies.get(owner, owner), descriptor)
    return made


def _prepared(name: str, element: hv.Overlay, layers: Layers) -> Prepared:
    drawing = Drawing(name, element, layers)
    figure = hv.renderer("bokeh").get_plot(element, doc=Document()).state
    sources, parts = drawing.drawn()
    _lighten(figure)
    return Prepared(figure, tuple(figure.references()), sources, parts)


def _lighten(figure: Any) -> None:
    """Leave out of a figure what nobody sees or uses, and share what holds no state.

    Each model less is time that every visitor waits.
    """
    figure.toolbar.tools = [tool for tool in figure.toolbar.tools if isinstance(tool, HoverTool)]
    figure.center = [part for part in figure.center if _is_drawn(part)]
    everything, either = AllIndices(), UnionRenderers()
    for renderer in figure.select({"type": GlyphRenderer}):
        source = renderer.data_source
        renderer.update(nonselection_glyph=None, selection_glyph=None, muted_glyph=None)
        renderer.view.filter = everything
        source.selection_policy = either
        source.data = {column: sent(values) for column, values in source.data.items()}


def _is_drawn(part: Any) -> bool:
    return not isinstance(part, Grid) or part.grid_line_color is not None


def _tapped(figure: Any, event: Any, act: Callable[[float, float], None]) -> None:
    across, up = figure.x_range, figure.y_range
    if across.start <= event.x <= across.end and up.start <= event.y <= up.end:
        act(event.x, event.y)
