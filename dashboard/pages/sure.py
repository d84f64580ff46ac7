"""How sure is it: whether the choice stands when weights or survey are other than they are."""

from html import escape
from typing import Any

import panel as pn
import panel_material_ui as pmui

from dashboard import theme
from dashboard.pages.compare import TABLE
from dashboard.pages.sure_rules import SettledRules
from dashboard.pages.sure_words import best_table, measuring_table
from dashboard.pages.undo import alike
from dashboard.session import Progress, Session
from model.language import _, marked
from model.robustness import Robustness, robustness

MEMORY = "weigh sure"
ASIDE = ("option", "layer", "day", "hour")  # choices on which robustness does not depend


class Sure:
    """Asked for by a button, tried off the page, and marked when choices have changed since."""

    def __init__(self, session: Session) -> None:
        self.session, self.study = session, session.study
        self.rules = SettledRules(session, self.show)
        self.ask = pmui.Button(
            label=_("Try it out"), size="small", variant="contained", margin=(4, 4), align="start"
        )
        self.ask.on_click(lambda _event: self.try_out())
        self.said = pn.pane.HTML(
            "", stylesheets=[TABLE, COUNTS], sizing_mode="stretch_width", margin=0
        )
        self.counts = pn.pane.HTML(
            "", stylesheets=[TABLE, COUNTS], sizing_mode="stretch_width", margin=0,
            css_classes=["counts"],
        )  # fmt: skip
        asked = pn.Column(
            self.said,
            self.ask,
            pn.pane.HTML(
                f"<h3>{escape(_('Settled among the weights'))}</h3>", stylesheets=[TABLE],
                margin=(6, 4, 0, 4),
            ),
            self.rules.view,
            css_classes=["asked"], sizing_mode="stretch_width", margin=0,
        )  # fmt: skip
        self.view = pn.Column(
            asked, self.counts, sizing_mode="stretch_both", css_classes=["sure"],
            stylesheets=[BESIDE], margin=0,
        )  # fmt: skip

    @property
    def told(self) -> tuple[dict[str, Any], Robustness] | None:
        """The last answer, with the choices that made it."""
        return self.session.memory.get(MEMORY)

    def choices(self) -> dict[str, Any]:
        """What the answer depends on."""
        kept = {name: value for name, value in self.study.snapshot().items() if name not in ASIDE}
        return kept | {"rules": self.rules.settled, "ground": self.study.ground}

    @property
    def out_of_date(self) -> bool:
        """Whether choices have changed since the answer."""
        return self.told is not None and not alike(self.told[0], self.choices())

    def try_out(self) -> None:
        """Try other weights and other surveys, off the page."""
        made, rules, twin = self.choices(), self.rules.rules(), self.session.twin()

        def work(progress: Progress) -> Robustness:
            def say(share: float, words: str) -> None:
                tried = _("Trying how sure it is: {what}, {percent} % done")
                progress(tried.format(what=words, percent=f"{100 * share:.0f}"))

            return robustness(twin, twin.place, rules, progress=say)

        def then(told: Robustness) -> None:
            self.session.memory[MEMORY] = made, told
            self.show()

        self.ask.disabled = True
        self.session.run(_("Trying how sure it is"), work, then)

    def show(self) -> None:
        """Show the last answer, or what asking would tell."""
        shown = self.session.shown
        self.ask.disabled = bool(self.session.doing)
        if self.told is None:
            self.said.object = f"<h2>{escape(_('How sure is it?'))}</h2><p>{escape(_(ASK))}</p>"
            self.counts.object = ""
            return
        told, old = self.told[1], ""
        if self.out_of_date:
            old = f'<p class="old">{escape(_(OLD))}</p>'
        first, *rest = (shown(sentence) for sentence in told.sentences)
        more = "".join(f"<li>{escape(sentence)}</li>" for sentence in rest)
        self.said.object = (
            f"<h2>{escape(_('How sure is it?'))}</h2>{old}<p>{escape(first)}</p><ul>{more}</ul>"
        )
        self.counts.object = best_table(told) + measuring_table(told, shown)
        self.ask.label = _("Try it out again")


ASK = marked(
    "The weights are an opinion and the survey has errors. Try 2000 other weightings and 2000 "
    "surveys that might be true as well: how often is the same tree best, and what is worth "
    "measuring before you dig? It takes a minute the first time."
)
OLD = marked("Choices have changed since this was tried: it speaks of what was set then.")
COUNTS = f"""
td.count {{ position: relative; width: 15%; min-width: 56px; }}
td.count i {{ position: absolute; left: 0; top: 4px; bottom: 4px; opacity: 0.8; }}
td.count span {{ position: relative; left: 62%; font-variant-numeric: tabular-nums; }}
td.ends {{ white-space: nowrap; }}
td.ends span {{ color: {theme.QUIET}; }}
td.ends span:last-child {{ margin-left: 140px; }}
svg {{ display: block; }}
th.tree {{ white-space: nowrap; }}
ul {{ margin: 2px 0; padding-left: 18px; }}
table + table {{ margin-top: 10px; }}
@media (max-width: {theme.NARROW - 1}px) {{
  th.tree {{ white-space: normal; }}
  td.count {{ min-width: 44px; }}
  svg {{ width: 96px; }}
  td.ends span:last-child {{ margin-left: 34px; }}
}}
.old {{ border-left: 3px solid {theme.ACCENT}; padding-left: 8px; }}
"""
BESIDE = f"""
:host {{ display: grid !important; gap: 4px 18px; overflow: hidden;
  grid-template: minmax(0, 1fr) / minmax(0, 0.8fr) minmax(0, 1.2fr); }}
.asked {{ overflow: auto; }}
.counts {{ overflow: auto; min-height: 0; }}
@media (max-width: {theme.NARROW - 1}px) {{
  :host {{ grid-template: auto auto / minmax(0, 1fr); overflow: visible; }}
}}
"""
