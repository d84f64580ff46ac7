"""What holds at the chosen place: the sentence, the order of merit, the chosen option's figures."""

from collections.abc import Callable
from html import escape

import panel as pn

from dashboard import theme
from dashboard.pages.card import card
from dashboard.pages.here_rows import factor_rows, heads, merit_rows
from dashboard.pages.moment import Moment
from dashboard.pages.ranked_rows import RankedRows
from dashboard.session import Session
from model.language import _


class HereList:
    """Order of merit at the place, and one bar a factor for the option looked at."""

    def __init__(
        self,
        session: Session,
        choose_option: Callable[[int], None],
        choose_factor: Callable[[int], None],
    ) -> None:
        self.session, self.study = session, session.study
        self._carded: tuple[int, str] = (-1, "")
        names = [factor.name for factor in self.study.factors]
        self.sentence = pn.pane.HTML(
            "", css_classes=["verdict"], stylesheets=[SENTENCE], margin=0,
            sizing_mode="stretch_width",
        )  # fmt: skip
        self.merit = RankedRows(
            lambda row: choose_option(int(row)),
            choose_factor,
            heads(self.study),
            kind="merit",
            label=_("Order of merit at this place"),
            line=_("ruled out here"),
            unit=_("of 100"),
            css_classes=["merit"],
        )
        self.bars = RankedRows(
            lambda row: choose_factor(names.index(row)),
            kind="bars",
            label=_("Figures of the chosen tree here, worst first"),
            css_classes=["bars"],
        )
        self.bars_head = pn.pane.HTML(
            "", stylesheets=[HEAD], margin=0, css_classes=["bars-head"],
            sizing_mode="stretch_width",
        )  # fmt: skip
        self.ranking = [self.sentence, self.merit]
        self.figures = [self.bars_head, self.bars]

    def show(self, moment: Moment, factor: int, hint: str = "") -> None:
        """Show the study's place as it is now, one factor picked out."""
        here, study, shown = moment.here, self.study, self.session.shown
        said = f'<p class="hint">{escape(hint)}</p>' if hint else ""
        title = f'<h1 class="unseen">{escape(_("Weigh"))}</h1>'
        self.sentence.object = f'{title}{said}<p class="said">{escape(shown(study.verdict()))}</p>'
        self.merit.set(merit_rows(study, here, shown), study.weights)
        self.bars.set(factor_rows(study, here, factor, shown))
        self.bars_head.object = self.head(here.reason[study.option])

    def head(self, reason: str) -> str:
        """The chosen option's name with all that is known of it, and how its figures are sorted."""
        study, option = self.study, self.study.option
        if self._carded[0] != option:
            lines = study.catalogue.card(study.options[option])
            self._carded = option, card(lines, self.session.shown)
        said = _("worst first")
        if reason:
            said = _("ruled out here, {why}").format(why=self.session.shown(reason))
        label = escape(study.options[option].label)
        return (
            f"<details><summary>{escape(_('All about this tree'))}</summary>"
            f"{self._carded[1]}</details>"
            f"<h2>{theme.letter(option)}&ensp;{label}: <span>{escape(said)}</span></h2>"
        )


SENTENCE = f"""
:host {{ font: 15px/1.35 {theme.FONT}; color: {theme.INK}; }}
p {{ margin: 0; }}
.hint {{ font-size: 13px; border-left: 3px solid {theme.ACCENT}; padding: 1px 0 1px 8px;
  margin-bottom: 3px; }}
.unseen {{ position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%);
  margin: 0; white-space: nowrap; }}
"""
HEAD = f"""
:host {{ font: 13px/1.4 {theme.FONT}; color: {theme.QUIET}; }}
h2, h3 {{ font-size: 14px; font-weight: 600; margin: 0; color: {theme.INK}; }}
span {{ font-weight: 400; }}
p {{ margin: 0; }}
summary {{ cursor: pointer; min-height: 24px; }}
details {{ float: right; position: relative; margin-left: 8px; }}
details > div, details > ul {{
  position: absolute; right: 0; z-index: 3; width: 26em; margin: 2px 0; padding: 8px 10px;
  background: {theme.PAPER}; border: 1px solid {theme.FAINT}; color: {theme.INK};
  max-height: 60vh; overflow: auto; box-sizing: border-box; max-width: 88vw;
}}
details > ul {{ padding-left: 26px; max-height: 20em; }}
details > div {{ bottom: 100%; max-height: 50vh; }}
table {{ border-collapse: collapse; width: 100%; font-size: 12px; }}
caption {{ text-align: left; font-weight: 600; padding-bottom: 4px; }}
th, td {{ text-align: left; vertical-align: top; padding: 3px 6px 3px 0;
  border-top: 1px solid {theme.FAINT}; font-weight: 400; }}
td small {{ color: {theme.QUIET}; display: block; }}
@media (max-width: {theme.NARROW - 1}px) {{ details > div, details > ul {{ width: 20em; }} }}
@media (pointer: coarse) {{ summary {{ min-height: 44px; }} }}
"""
