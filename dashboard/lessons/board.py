"""A plot beside its sliders: drawn once, and from then on only its columns are replaced."""

from collections.abc import Callable, Mapping
from html import escape
from typing import Any

import holoviews as hv
import panel as pn

from dashboard import theme
from dashboard.live import Drawing, Layers
from dashboard.pages.change import TippingStrip
from dashboard.pages.ground import map_layers
from dashboard.pages.moment import Moment
from dashboard.plots import site_map
from dashboard.session import Session
from model.study import Study

WIDEST = 900  # px
SAID = f":host {{ font: 15px/1.4 {theme.FONT}; }} p {{ margin: 0 10px 4px; }}"


class Board(pn.viewable.Viewer):
    """A view with widgets over it; `show(**values)` renews the view and says what it shows."""

    def __init__(
        self, drawing: Drawing, view: Any, show: Callable[..., str], **widgets: Any
    ) -> None:
        super().__init__()
        self.drawing, self.widgets, self._show = drawing, widgets, show
        self.said = pn.pane.HTML("", stylesheets=[SAID], sizing_mode="stretch_width", margin=0)
        self._view = pn.Column(
            pn.FlexBox(*widgets.values(), sizing_mode="stretch_width"),
            self.said,
            view,
            max_width=WIDEST,
            sizing_mode="stretch_width",
        )
        for widget in widgets.values():
            widget.param.watch(self._moved, "value")
        self._moved()

    def _moved(self, *_: Any) -> None:
        said = self._show(**values_of(self.widgets))
        self.said.object = f'<p aria-live="polite">{escape(said)}</p>'

    def __panel__(self) -> pn.Column:
        return self._view


def values_of(widgets: Mapping[str, Any]) -> dict[str, Any]:
    """Values of widgets by their names."""
    return {name: widget.value for name, widget in widgets.items()}


def chart(
    plot: Callable[[Layers], hv.Overlay],
    layers: Callable[..., Layers],
    words: Callable[..., str],
    pixels: int = 330,
    **widgets: Any,
) -> Board:
    """A chart; `layers` and `words` are functions of the widgets' values, `pixels` its height."""
    columns = layers(**values_of(widgets))
    size = {"height": pixels, "sizing_mode": "stretch_width"}
    drawing = Drawing("lesson", plot(columns), columns, **size)

    def show(**values: Any) -> str:
        drawing.write(layers(**values))
        return words(**values)

    return Board(drawing, drawing.view, show, **widgets)


def land_map(
    study: Study, choose: Callable[..., Any], words: Callable[..., str], **widgets: Any
) -> Board:
    """The app's map of a site; `choose` makes the study's choices from the widgets' values."""

    def layers(**values: Any) -> Layers:
        choose(**values)
        return map_layers(study, study.map_layer())

    def plot(columns: Layers) -> hv.Overlay:
        return site_map.plot(columns, study.site.features, study.ground.places)

    return chart(plot, layers, words, pixels=480, **widgets)


def tipping_chart(
    study: Study, choose: Callable[..., str], words: Callable[..., str], **widgets: Any
) -> Board:
    """The app's chart of what a weight changes; `choose` returns the slider that it is drawn for.

    That is a factor's name, 'family:' and a family, or 'trade-off'.
    """
    strip = TippingStrip(Session(study), choose(**values_of(widgets)))

    def show(**values: Any) -> str:
        strip.show(Moment(study), choose(**values))
        return words(**values)

    view = pn.Column(strip.view, height=360, sizing_mode="stretch_width")
    return Board(strip.drawing, view, show, **widgets)
