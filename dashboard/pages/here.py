"""What holds at the chosen place: the sentence, the order of merit, the chosen option's figures."""

from collections.abc import Callable
from html import escape
from typing import Any

import panel as pn

from dashboard import theme
from dashboard.live import Drawing, Layers
from dashboard.plots import factor_bars, merit


class HereList:
    """Order of merit at the place, and one bar a factor for the option looked at."""

    def __init__(
        self, study: Any, choose_option: Callable[[int], None], choose_factor: Callable[[int], None]
    ) -> None:
        self.study = study
        self._choose_option, self._choose_factor = choose_option, choose_factor
        self.headings = [
            merit.Heading(factor.label, theme.family_colour(factor.group))
            for factor in study.factors
        ]
        columns, bars = self.merit_layers(), self.bar_layers(0)
        self.sentence = pn.pane.HTML(
            "", css_classes=["verdict"], stylesheets=[SENTENCE], margin=0,
            sizing_mode="stretch_width",
        )  # fmt: skip
        self.merit = Drawing(
            merit.plot(columns, self.headings), columns,
            sizing_mode="stretch_both", css_classes=["merit"], margin=0,
        )  # fmt: skip
        self.bars = Drawing(
            factor_bars.plot(bars), bars,
            sizing_mode="stretch_both", css_classes=["bars"], margin=0,
        )  # fmt: skip
        self.bars_head = pn.pane.HTML("", stylesheets=[HEAD], margin=0, css_classes=["bars-head"])
        self.merit.on_tap("bars", self._tapped_merit)
        self.bars.on_tap("bars", self._tapped_bars)
        self.view = [self.sentence, self.merit.view, self.bars_head, self.bars.view]

    def show(self, factor: int) -> None:
        """Show the study's place as it is now, one factor picked out."""
        self.sentence.object = f"<p>{escape(self.study.verdict())}</p>"
        self.merit.write(self.merit_layers())
        self.bars.write(self.bar_layers(factor))
        label = escape(self.study.options[self.study.option].label)
        letter = theme.letter(self.study.option)
        reason = self.study.here().reason[self.study.option]
        said = f"ruled out here, {escape(reason)}" if reason else "worst first"
        self.bars_head.object = f"<h2>{letter}&ensp;{label}: <span>{said}</span></h2>"

    def merit_layers(self) -> Layers:
        """Columns of the order of merit."""
        study = self.study
        labels = [option.label for option in study.options]
        return merit.layers(study.here(), labels, self.headings, study.weights, study.option)

    def bar_layers(self, factor: int) -> Layers:
        """Columns of the chosen option's bars."""
        study, here = self.study, self.study.here()
        option = study.option
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
"""
