"""The column of weights: trade-off, weight sets, a slider for every family and factor."""

from collections.abc import Callable, Sequence
from html import escape
from typing import Any

import panel as pn
import panel_material_ui as pmui

from dashboard import theme
from dashboard.pages.moment import Moment
from dashboard.pages.sliders import Slider, Sliders
from dashboard.session import Session
from model.language import _, marked
from model.study import Study

TRADE_OFF = "trade-off"
HOW_TO = marked(
    "Move a slider. The dark bar under it is how far it may go before another tree leads."
)
SMALL = {"size": "small", "margin": (2, 4)}


class Weights:
    """Sliders and buttons for what counts how much; it shows and asks, the page acts."""

    def __init__(self, session: Session, moved: Callable[[str, float, bool], None]) -> None:
        self.session, self.study = session, session.study
        self._spreads: tuple[Any, list[str]] = None, []
        self.sliders = Sliders(moved)
        self.equal = pmui.Button(label=_("Equal"), variant="outlined", **SMALL)
        wide = {"sizing_mode": "stretch_width", **SMALL}
        self.sets = pmui.Select(
            label=_("Weight sets"),
            options={_("as moved"): ""},
            value="",
            size="small",
            margin=(8, 4, 2, 4),
            sizing_mode="stretch_width",
        )
        self.name = pmui.TextInput(label=_("Keep these weights as"), max_length=60, **wide)
        self.about = pmui.TextInput(label=_("Whose they are, and why"), max_length=300, **wide)
        self.save = pmui.Button(label=_("Keep"), variant="outlined", **SMALL)
        self.said = pn.pane.HTML("", margin=(0, 8), stylesheets=[WORDS])
        self.view = pn.Column(
            pn.Row(self.sets, self.equal, sizing_mode="stretch_width"),
            pn.pane.HTML(
                f"<h2>{escape(_('What counts how much'))}</h2><p>{escape(_(HOW_TO))}</p>",
                margin=(0, 8),
                stylesheets=[WORDS],
            ),
            self.sliders,
            pn.Row(self.name, self.save, sizing_mode="stretch_width"),
            self.about,
            self.said,
            pn.pane.HTML(unjudged(self.study), margin=(4, 8), stylesheets=[WORDS]),
            sizing_mode="stretch_width",
            css_classes=["weights"],
        )

    def show(self, moment: Moment, touched: str) -> None:
        """Show the study's weights as they are now."""
        self.sliders.set(sliders(moment, touched, self.spreads()))
        names = {_("as moved"): "", **{one.name: one.name for one in self.study.weight_sets}}
        if self.sets.options != names:
            self.sets.options = names

    def spreads(self) -> list[str]:
        """How each measure varies over the ground, asked again only when it may have changed."""
        study = self.study
        figures = [settings.figures() for settings in study.settings.values()]
        asked = study.option, figures
        if asked != self._spreads[0]:
            numbered = enumerate(study.factors)
            shown = self.session.shown
            said = [
                spread_words(factor, study.spread(number), shown) for number, factor in numbered
            ]
            self._spreads = asked, said
        return self._spreads[1]

    def name_set(self, name: str, about: str) -> None:
        """Say which weight set the weights are, none of them if they have been moved since."""
        if self.sets.value != name:
            self.sets.value = name
        self.say(about)

    def say(self, *sentences: str) -> None:
        """Show sentences below the sliders."""
        self.said.object = "".join(f"<p>{escape(one)}</p>" for one in sentences if one)


def sliders(moment: Moment, touched: str, spreads: Sequence[str]) -> list[Slider]:
    """Sliders of a study, top to bottom: the trade-off, then each family and its factors."""
    study = moment.study
    rows = [trade_off(study, touched)]
    for number, family in enumerate(study.families):
        rows.append(family_slider(moment, family, touched))
        rows += [
            factor_slider(moment, factor, touched, spreads[factor])
            for factor in range(len(study.factors))
            if study.family_of[factor] == number
        ]
    return rows


def trade_off(study: Study, touched: str) -> Slider:
    """Slider of the exponent, its ends in words."""
    low, high = study.param.trade_off.bounds
    return Slider(
        id=TRADE_OFF,
        label=_("Trade-off"),
        kind="trade",
        value=round(study.trade_off, 1),
        share=f"{study.trade_off:.1f}".replace("-", "\N{MINUS SIGN}"),
        low=low,
        high=high,
        step=0.1,
        ends=(_("the weakest point decides"), _("strengths make up for weaknesses")),
        tone=theme.INK,
        touched=touched == TRADE_OFF,
    )


def family_slider(moment: Moment, family: str, touched: str) -> Slider:
    """Slider of a family, which moves its factors as a block."""
    block = f"family:{family}"
    return block_slider(
        moment, block, touched, label=_(theme.family_label(family)), kind="family", family=family
    )


def factor_slider(moment: Moment, number: int, touched: str, spread: str) -> Slider:
    """Slider of one factor with its question and the spread of its measure over the ground."""
    factor = moment.study.factors[number]
    return block_slider(
        moment,
        factor.name,
        touched,
        label=_(factor.label),
        family=factor.group,
        within=f"family:{factor.group}",
        question=_(factor.question),
        spread=spread,
    )


def block_slider(
    moment: Moment, block: str, touched: str, *, label: str, family: str, spread: str = "",
    **said: Any,
) -> Slider:  # fmt: skip
    """Slider of a factor or family: its share, and where today's leader stays."""
    study, tip = moment.study, moment.tips.get(block)
    fixed = tip is None or (tip.below < 0 and tip.above < 0)
    percent = round(100 * float(study.weights[study.members(block)].sum()), 1)
    notes = [spread, _("cannot change it here") if fixed else ""]
    return Slider(
        id=block,
        label=label,
        value=percent,
        share=f"{percent:.0f} %",
        step=0.5,
        note=" \N{MIDDLE DOT} ".join(note for note in notes if note),
        hint=stay_words(moment, tip),
        stay=(100 * tip.low, 100 * tip.high) if tip is not None else (),
        tone=theme.family_colour(family),
        touched=touched == block,
        quiet=fixed,
        **said,
    )


def stay_words(moment: Moment, tip: Any) -> str:
    """What the mark under a slider says, in words."""
    if tip is None:
        return _("Nothing can stand here.")
    if tip.below < 0 and tip.above < 0:
        return _("No setting of this slider alone changes what leads at this place.")
    below, above = _("Below {share} % {name} leads"), _("Above {share} % {name} leads")
    ends = ((tip.below, below, tip.low), (tip.above, above, tip.high))
    return ". ".join(
        said.format(share=f"{100 * share:.0f}", name=moment.label(taker))
        for taker, said, share in ends
        if taker >= 0
    )


def spread_words(factor: Any, spread: Any, shown: Callable[[str], str] = str) -> str:
    """How a factor's measure varies over the ground, in its unit."""
    unit, _space, rest = factor.unit.partition(" ")
    low, high = (
        shown(theme.figure_text(x, factor.decimals, unit)) for x in (spread.low, spread.high)
    )
    if low.endswith(f" {unit}"):
        low = low.removesuffix(f" {unit}")
    return f"{_('{low} to {high}').format(low=low, high=high)} {rest}".strip()


def unjudged(study: Study) -> str:
    """Factors that are switched off on this site, and why."""
    if not study.unjudged:
        return ""
    said = "".join(
        f"<p><b>{escape(_(label))}</b>: {escape(why)}</p>" for label, why in study.unjudged
    )
    return f"<h2>{escape(_('Not judged here'))}</h2>{said}"


WORDS = f"""
:host {{ font: 12px/1.4 {theme.FONT}; color: {theme.QUIET}; }}
p {{ margin: 2px 0; }}
h2 {{ font-size: 13px; margin: 4px 0 0; color: {theme.INK}; }}
"""
