"""What would change it: the tipping chart of the slider last touched, and a factor's own curve."""

from collections.abc import Callable
from dataclasses import replace
from html import escape
from typing import Any

import numpy as np
import panel as pn

from dashboard import theme
from dashboard.copies import CopiedDrawing
from dashboard.live import Layers
from dashboard.pages.here import HEAD
from dashboard.pages.moment import Moment
from dashboard.pages.sliders import Slider, Sliders
from dashboard.pages.weights import TRADE_OFF
from dashboard.plots import desirability_curve, tipping
from dashboard.session import Session
from model.language import _
from model.results import Here
from model.study import Study
from model.trade_off import trade_off_chart

SHARES = np.linspace(0.0, 1.0, 101)
TICKS = (0, 25, 50, 75, 100)


class TippingStrip:
    """Each contender's score as one weight runs from 0 to 100 %, or the trade-off its way."""

    def __init__(self, session: Session, block: str) -> None:
        self.session, self.study = session, session.study
        columns = self.layers(Moment(self.study), block)
        self.head = pn.pane.HTML("", stylesheets=[HEAD], margin=0)
        plot = lambda: tipping.plot(columns)  # noqa: E731 -- one line
        self.drawing = CopiedDrawing(
            "tipping", plot, columns, self.study.ground, sizing_mode="stretch_both", margin=0
        )
        self.view = pn.Column(
            self.head,
            self.drawing.view,
            sizing_mode="stretch_both",
            css_classes=["tipping"],
            margin=0,
        )

    def show(self, moment: Moment, block: str) -> None:
        """Show the chart of a factor, a family or the trade-off."""
        columns = self.layers(moment, block)
        self.drawing.write(columns)
        low, high = columns["today"]["y0"][0], columns["today"]["y1"][0]
        self.drawing.adjust("y_range", start=low, end=high)
        words = self.exponent_words if block == TRADE_OFF else tipping.percent
        self.drawing.adjust(
            "xaxis", major_label_overrides={tick: words(tick / 100) for tick in TICKS}
        )
        asked = _("If the weight of {name} were").format(name=block_label(self.study, block))
        if block == TRADE_OFF:
            asked = _("If the trade-off were (left: the weakest point decides)")
        self.head.object = f"<h2>{escape(asked)}</h2>"

    def layers(self, moment: Moment, block: str) -> Layers:
        """Columns of the chart at the study's place."""
        study, here = self.study, moment.here
        scores = np.full((len(study.options), SHARES.size), np.nan)
        if not here.allowed.size:
            return tipping.layers(SHARES, scores, 0.0, [], -1, self.labels)
        if block == TRADE_OFF:
            return self.trade_off_layers(here, scores)
        scores[here.allowed] = 100 * study.tipping_chart(block, SHARES)
        tip = moment.tips[block]
        leader = int(here.allowed[tip.leader])
        ends = ((tip.low, tip.below), (tip.high, tip.above))
        crossings = [(share, leader, int(here.allowed[to])) for share, to in ends if to >= 0]
        return tipping.layers(SHARES, scores, tip.now, crossings, leader, self.labels)

    def trade_off_layers(self, here: Here, scores: np.ndarray) -> Layers:
        """Columns of the chart as the trade-off runs from one end of its slider to the other."""
        study = self.study
        low, high = study.param.trade_off.bounds
        chart = trade_off_chart(here, study.weights, low + (high - low) * SHARES)
        scores[here.allowed] = 100 * chart.scores
        crossings = [
            ((at - low) / (high - low), int(here.allowed[before]), int(here.allowed[after]))
            for at, before, after in chart.crossings
        ]
        now = (study.trade_off - low) / (high - low)
        leader = int(here.allowed[0])
        return tipping.layers(
            SHARES, scores, now, crossings, leader, self.labels, self.exponent_words
        )

    def exponent_words(self, share: float) -> str:
        """The exponent that lies so far along its slider, as people read it."""
        low, high = self.study.param.trade_off.bounds
        return theme.figure_text(low + (high - low) * share, 1)

    @property
    def labels(self) -> list[str]:
        """Labels of the options."""
        return [option.label for option in self.study.options]


class CurveCard:
    """How one factor's figure is valued, with the knots of its curve to move."""

    def __init__(self, session: Session, moved: Callable[[Any, bool], None]) -> None:
        self.session, self.study = session, session.study
        self._moved, self.number = moved, 0
        self._explained: tuple[Any, str] | None = None
        columns = self.layers(self.study.here(), 0)
        self.head = pn.pane.HTML("", stylesheets=[HEAD], margin=0, css_classes=["head"])
        self.knots = Sliders(self._knot_moved, css_classes=["knots"])
        self.drawing = CopiedDrawing(
            "curve",
            lambda: desirability_curve.plot(columns),
            columns,
            land=self.study.ground,
            sizing_mode="stretch_both",
            css_classes=["plot"],
            margin=0,
        )
        self.view = pn.Column(
            self.head,
            self.drawing.view,
            self.knots,
            sizing_mode="stretch_both",
            css_classes=["curve"],
            stylesheets=[CURVE],
            margin=0,
        )

    @property
    def curve(self) -> Any:
        """Curve of the factor that is shown."""
        return self.study.settings[self.study.factors[self.number].name].curve

    def show(self, moment: Moment, number: int) -> None:
        """Show one factor for the study's option and place."""
        self.number = number
        factor = self.study.factors[number]
        self.drawing.write(self.layers(moment.here, number))
        low, high = self.range(moment.here)
        self.drawing.adjust("x_range", start=low, end=high)
        self.drawing.adjust("xaxis", axis_label=f"{_(factor.label)} [{factor.unit}]")
        self.knots.set(knot_sliders(self.curve, factor, low, high))
        said = escape(self.session.shown(self.sentence()))
        asked = _("How {name} is valued").format(name=_(factor.label).lower())
        sources = "".join(f"<li>{escape(source)}</li>" for source in factor.sources)
        self.head.object = (
            f"<details><summary>{escape(_('Sources'))}</summary><ul>{sources}</ul></details>"
            f"<h2>{escape(asked)}</h2><p>{said}</p>"
        )

    def sentence(self) -> str:
        """The figure of the factor explained, asked again only when it may have changed."""
        study, factor = self.study, self.study.factors[self.number]
        figures = study.settings[factor.name].figures()
        asked = (self.number, study.option, study.place, figures)
        if self._explained is None or self._explained[0] != asked:
            self._explained = asked, study.explain(self.number, study.option, study.place)
        return self._explained[1]

    def range(self, here: Any) -> tuple[float, float]:
        """Range of the measure that is drawn."""
        value = here.measures[self.number, self.study.option]
        return desirability_curve.measure_range(self.curve, value, self.study.spread(self.number))

    def layers(self, here: Any, number: int) -> Layers:
        """Columns of the curve with the present value marked."""
        study, factor = self.study, self.study.factors[number]
        value = here.measures[number, study.option]
        worth = here.desirabilities[number, study.option]
        figure = self.session.shown(theme.figure_text(value, factor.decimals, factor.unit))
        text = f"{figure}: {worth:.2f}"
        return desirability_curve.layers(
            study.settings[factor.name].curve, value, worth, study.spread(number), text
        )

    def _knot_moved(self, knot: str, value: float, settled: bool) -> None:
        axis, number = knot[0], int(knot[1:])
        figures = list(getattr(self.curve, axis))
        figures[number] = value
        if axis == "x":
            figures[number] = between(self.curve.x, number, value)
        self._moved(replace(self.curve, **{axis: tuple(figures)}), settled)


def between(x: tuple[float, ...], number: int, value: float) -> float:
    """The value, kept clear of the knots before and after it."""
    room = (x[-1] - x[0]) * 1e-3
    low = x[number - 1] + room if number else -np.inf
    high = x[number + 1] - room if number + 1 < len(x) else np.inf
    return float(np.clip(value, min(low, high), max(low, high)))


def knot_sliders(curve: Any, factor: Any, low: float, high: float) -> list[Slider]:
    """Two sliders a knot: the figure and its desirability."""
    rows = []
    for number, (x, y) in enumerate(zip(curve.x, curve.y, strict=True)):
        figure = theme.figure_text(x, factor.decimals)
        rows += [
            Slider(
                id=f"x{number}", kind="knot", label=_("at"), value=x, share=figure,
                low=low, high=high, step=(high - low) / 200,
            ),
            Slider(
                id=f"y{number}", kind="knot", label=_("worth"), value=y, share=f"{y:.2f}",
                low=0.0, high=1.0, step=0.01,
            ),
        ]  # fmt: skip
    return rows


def block_label(study: Study, block: str) -> str:
    """Words for a factor or a family."""
    if block == TRADE_OFF:
        return _("the trade-off")
    if block.startswith("family:"):
        family = _(theme.family_label(block.removeprefix("family:")))
        return f"\N{LEFT DOUBLE QUOTATION MARK}{family}\N{RIGHT DOUBLE QUOTATION MARK}"
    return _(next(factor.label for factor in study.factors if factor.name == block)).lower()


CURVE = f"""
:host {{
  display: grid !important; gap: 2px 14px;
  grid-template: auto minmax(0, 1fr) / minmax(0, 1fr) minmax(0, 0.85fr);
  grid-template-areas: "head head" "plot knots";
}}
.head {{ grid-area: head; }}
.plot {{ grid-area: plot; min-height: 0; }}
.knots {{ grid-area: knots; min-height: 0; overflow-y: auto; }}
@media (max-width: {theme.NARROW - 1}px) {{
  :host {{
    grid-template: auto 200px auto / minmax(0, 1fr);
    grid-template-areas: "head" "plot" "knots";
  }}
}}
"""
