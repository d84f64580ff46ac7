"""Why not there, and two choices side by side, factor by factor."""

from collections.abc import Callable
from html import escape

import panel as pn
import panel_material_ui as pmui

from dashboard import theme
from dashboard.pages.compare_words import difference_table, lead_words, summary
from dashboard.pages.ground import option_options, place_options
from dashboard.session import Session
from model.comparison import Choice, best_place, comparison, why_not
from model.language import _

WIDE = {"sizing_mode": "stretch_width", "margin": (2, 4), "size": "small"}


class WhyNot:
    """Why the chosen option should not stand at the chosen place, in sentences."""

    def __init__(self, session: Session, compare: Callable[[Choice], None]) -> None:
        self.session, self.study = session, session.study
        self.said = pn.pane.HTML("", stylesheets=[TABLE], sizing_mode="stretch_width", margin=0)
        small = {"size": "small", "variant": "outlined", "margin": (4, 4)}
        self.elsewhere = pmui.Button(label=_("Side by side with its best place"), **small)
        self.leader = pmui.Button(label=_("Side by side with what leads here"), **small)
        self.elsewhere.on_click(lambda _event: compare(self.best()))
        self.leader.on_click(lambda _event: compare(self.first()))
        self.view = pn.Column(
            self.said,
            pn.FlexBox(self.elsewhere, self.leader, margin=0),
            sizing_mode="stretch_both",
            css_classes=["why"],
            scroll=True,
            margin=0,
        )

    def best(self) -> Choice:
        """The chosen option at its best place."""
        place = best_place(self.study, self.study.option)
        return Choice(self.study.option, self.study.place if place is None else place)

    def first(self) -> Choice:
        """What leads at the chosen place, the next best where that is the chosen option."""
        order = [option for option in self.study.here().allowed if option != self.study.option]
        return Choice(int(order[0]) if order else self.study.option, self.study.place)

    def show(self) -> None:
        """Say why not, for the study's option and place."""
        study = self.study
        label = study.options[study.option].label
        where = study.ground.places.name(study.place)
        asked = _("Why not {label} at {place}?").format(label=label, place=where)
        said = [self.session.shown(one) for one in why_not(study, study.option, study.place)]
        parts = "".join(f"<p>{escape(one)}</p>" for one in said)
        self.said.object = f"<h2>{escape(asked)}</h2><div class='large'>{parts}</div>"
        now = Choice(study.option, study.place)
        self.elsewhere.disabled, self.leader.disabled = self.best() == now, self.first() == now


class SideBySide:
    """The chosen option at the chosen place beside another option or place."""

    def __init__(self, session: Session, chosen: Callable[[Choice], None]) -> None:
        self.session, self.study, self._chosen = session, session.study, chosen
        self._showing = False
        self.option = pmui.Select(
            label=_("Beside it: option"), options=option_options(self.study), **WIDE
        )
        self.place = pmui.Select(label=_("Beside it: place"), **WIDE)
        self.swap = pmui.Button(
            label=_("Swap"), size="small", variant="outlined", margin=(6, 4), align="start"
        )
        self.said = pn.pane.HTML("", stylesheets=[TABLE], sizing_mode="stretch_width", margin=0)
        self.table = pn.pane.HTML(
            "", stylesheets=[TABLE], sizing_mode="stretch_width", margin=0, css_classes=["table"]
        )
        for widget in (self.option, self.place):
            widget.param.watch(lambda _event: self._asked(), "value")
        asked = pn.Column(
            self.said,
            pn.Row(self.option, self.place, sizing_mode="stretch_width", margin=0),
            self.swap,
            css_classes=["asked"],
            sizing_mode="stretch_width",
            margin=0,
        )
        self.view = pn.Column(
            asked, self.table, sizing_mode="stretch_both", css_classes=["side-by-side"],
            stylesheets=[BESIDE], margin=0,
        )  # fmt: skip

    def show(self, other: Choice) -> None:
        """Show the study's choice beside another."""
        study, shown = self.study, self.session.shown
        self._showing = True
        try:
            self.place.options = place_options(study, other.place)
            self.option.value, self.place.value = other
        finally:
            self._showing = False
        found = comparison(study, Choice(study.option, study.place), other)
        if found.one == found.other:
            said = _(
                "Choose another option or place below; or press Compare with, then tap the map "
                "or the ranking."
            )
            self.said.object = f"<h2>{escape(_('Side by side'))}</h2><p>{escape(said)}</p>"
            self.table.object = ""
            return
        self.said.object = (
            f"<h2>{escape(lead_words(study, found))}</h2>"
            f"<p>{escape(summary(study, found, shown))}</p>"
        )
        self.table.object = difference_table(study, found, shown)

    def _asked(self) -> None:
        if not self._showing and None not in (self.option.value, self.place.value):
            self._chosen(Choice(self.option.value, self.place.value))


TABLE = f"""
:host {{ font: 13px/1.35 {theme.FONT}; color: {theme.INK}; }}
h2 {{ font-size: 14px; margin: 2px 0; }}
h3 {{ font-size: 13px; margin: 4px 0 0; }}
p {{ margin: 2px 0 4px; }}
.large {{ font-size: 15px; max-width: 62em; }}
.quiet {{ color: {theme.QUIET}; }}
table {{ border-collapse: collapse; width: 100%; font-size: 12.5px; line-height: 1.25; }}
caption {{ text-align: left; color: {theme.QUIET}; padding-bottom: 2px; }}
.unseen {{ position: absolute; width: 1px; height: 1px; overflow: hidden;
  clip-path: inset(50%); white-space: nowrap; }}
th, td {{ text-align: left; font-weight: 400; padding: 2px 6px 2px 0; vertical-align: top; }}
thead th {{ color: {theme.QUIET}; border-bottom: 1px solid {theme.FAINT}; }}
th.ends {{ width: 36%; white-space: nowrap; }}
th.ends span {{ display: inline-block; width: 48%; }}
th.ends span:last-child {{ text-align: right; }}
td.bar {{ position: relative; min-width: 120px; background: linear-gradient({theme.INK},
  {theme.INK}) center / 1px 100% no-repeat; }}
td.bar i {{ position: absolute; top: 3px; bottom: 3px; }}
td.bar span {{ position: absolute; top: 2px; }}
tr.total th, tr.total td {{ border-top: 1px solid {theme.FAINT}; font-weight: 600;
  text-align: left; }}
tr.total td:nth-child(3) {{ text-align: center; }}
summary {{ cursor: pointer; min-height: 24px; }}
@media (pointer: coarse) {{ summary {{ min-height: 44px; }} }}
"""
BESIDE = f"""
:host {{ display: grid !important; gap: 4px 16px; overflow: hidden;
  grid-template: minmax(0, 1fr) / minmax(0, 0.75fr) minmax(0, 1.25fr); }}
.asked {{ overflow: auto; }}
.table {{ overflow: auto; min-height: 0; }}
@media (max-width: {theme.NARROW - 1}px) {{
  :host {{ grid-template: auto auto / minmax(0, 1fr); overflow: visible; }}
}}
"""
