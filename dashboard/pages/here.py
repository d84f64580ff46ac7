"""What holds at the chosen place: the sentence, the order of merit, the chosen option's figures."""

from collections.abc import Callable
from html import escape
from typing import Any

import panel as pn

from dashboard import theme
from dashboard.live import Drawing, Layers
from dashboard.pages.moment import Moment
from dashboard.plots import factor_bars, merit
from model.study import Study

ROW = 19  # px, height of a factor's row


class HereList:
    """Order of merit at the place, and one bar a factor for the option looked at."""

    def __init__(
        self,
        study: Study,
        choose_option: Callable[[int], None],
        choose_factor: Callable[[int], None],
    ) -> None:
        self.study = study
        self._choose_option, self._choose_factor = choose_option, choose_factor
        self.headings = [
            merit.Heading(
                factor.label,
                theme.family_colour(factor.group),
                theme.family_label(factor.group),
            )
            for factor in study.factors
        ]
        here = study.here()
        columns, bars = self.merit_layers(here), self.bar_layers(here, 0)
        self.sentence = pn.pane.HTML(
            "", css_classes=["verdict"], stylesheets=[SENTENCE], margin=0,
            sizing_mode="stretch_width",
        )  # fmt: skip
        self.merit = Drawing(
            "merit",
            merit.plot(columns), columns,
            sizing_mode="stretch_both", css_classes=["merit"], margin=0,
        )  # fmt: skip
        self.bars = Drawing(
            "bars",
            factor_bars.plot(bars), bars,
            sizing_mode="stretch_width", height=ROW * len(study.factors), margin=0,
        )  # fmt: skip
        self.bars_head = pn.pane.HTML("", stylesheets=[HEAD], margin=0, css_classes=["bars-head"])
        self.merit.on_tap("bars", self._tapped_merit)
        self.bars.on_tap("bars", self._tapped_bars)
        bars_box = pn.Column(self.bars.view, css_classes=["bars"], margin=0)
        self.view = [self.sentence, self.merit.view, self.bars_head, bars_box]

    def show(self, moment: Moment, factor: int) -> None:
        """Show the study's place as it is now, one factor picked out."""
        here = moment.here
        self.sentence.object = f"<p>{escape(self.study.verdict())}</p>"
        self.merit.write(self.merit_layers(here))
        self.bars.write(self.bar_layers(here, factor))
        label = escape(self.study.options[self.study.option].label)
        letter = theme.letter(self.study.option)
        reason = here.reason[self.study.option]
        said = f"ruled out here, {escape(reason)}" if reason else "worst first"
        self.bars_head.object = f"<h2>{letter}&ensp;{label}: <span>{said}</span></h2>"

    def merit_layers(self, here: Any) -> Layers:
        """Columns of the order of merit."""
        study = self.study
        labels = [option.label for option in study.options]
        return merit.layers(here, labels, self.headings, study.weights, study.option)

    def bar_layers(self, here: Any, factor: int) -> Layers:
        """Columns of the chosen option's bars."""
        study, option = self.study, self.study.option
        texts = [
            theme.figure_text(here.measures[number, option], one.decimals, one.unit)
            for number, one in enumerate(study.factors)
        ]
        return factor_bars.layers(
            here.desirabilities[:, option],
            texts,
            [one.label for one in study.factors],
            [theme.family_colour(one.group) for one in study.factors],
            factor,
        )

    def _tapped_merit(self, x: float, y: float) -> None:
        option = merit.row_at(self.study.here(), y)
        if option is not None:
            self._choose_option(option)
        factor = merit.column_at(x, self.headings)
        if factor is not None:
            self._choose_factor(factor)

    def _tapped_bars(self, _x: float, y: float) -> None:
        worth = self.study.here().desirabilities[:, self.study.option]
        factor = factor_bars.factor_at(worth, y)
        if factor is not None:
            self._choose_factor(factor)


SENTENCE = f"""
:host {{ font: 16px/1.4 {theme.FONT}; color: {theme.INK}; }}
p {{ margin: 0; }}
"""
HEAD = f"""
:host {{ font: 13px/1.4 {theme.FONT}; color: {theme.QUIET}; }}
h2 {{ font-size: 14px; font-weight: 600; margin: 0; color: {theme.INK}; }}
span {{ font-weight: 400; }}
p {{ margin: 0; }}
summary {{ cursor: pointer; }}
details {{ float: right; position: relative; }}
details ul {{
  position: absolute; right: 0; z-index: 2; width: 26em; margin: 2px 0; padding: 8px 10px 8px 26px;
  background: {theme.PAPER}; border: 1px solid {theme.FAINT}; color: {theme.INK};
}}
@media (max-width: {theme.NARROW - 1}px) {{ details ul {{ width: 20em; }} }}
"""
