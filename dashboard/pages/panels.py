"""The panels at the foot of the page, one of them open: what would change it, why not, how sure."""

from collections.abc import Callable
from typing import Any

import panel as pn

from dashboard.pages.change import CurveCard, TippingStrip
from dashboard.pages.compare import SideBySide, WhyNot
from dashboard.pages.layout import BOX, CHANGE
from dashboard.pages.moment import Moment
from dashboard.pages.sure import Sure
from dashboard.pages.weigh_tabs import Tabs
from dashboard.session import Session
from model.comparison import Choice
from model.language import _

PANELS = {
    "change": "What would change it",
    "why": "Why not there?",
    "beside": "Side by side",
    "sure": "How sure is it?",
}


class Panels:
    """Four answers to what people ask next, each one tap away."""

    def __init__(
        self,
        session: Session,
        touched: str,
        curve_moved: Callable[[Any, bool], None],
        compare: Callable[[Choice], None],
    ) -> None:
        self.tipping = TippingStrip(session, touched)
        self.curve = CurveCard(session, curve_moved)
        self.why = WhyNot(session, compare)
        self.compared = SideBySide(session, compare)
        self.sure = Sure(session)
        change = pn.Column(
            self.tipping.view, self.curve.view, sizing_mode="stretch_both", stylesheets=[CHANGE],
            css_classes=["change"],
            margin=0,
        )  # fmt: skip
        self.views = {
            "change": change,
            "why": self.why.view,
            "beside": self.compared.view,
            "sure": self.sure.view,
        }
        # A grid lays itself out even where it is hidden, so what is hidden is the box round it.
        self.boxes = {
            name: pn.Column(
                pn.Spacer(width=0, height=0), sizing_mode="stretch_both", css_classes=["panel"],
                stylesheets=[BOX], margin=0,
            )
            for name in self.views
        }  # fmt: skip
        self.tabs = Tabs(
            [(name, _(words)) for name, words in PANELS.items()],
            label=_("More about this choice"),
            css_classes=["tabs"],
            sizing_mode="stretch_width",
        )

    def show(self, moment: Moment, touched: str, factor: int, other: Choice) -> None:
        """Write the open panel; the others are written when they are opened."""
        for name, box in self.boxes.items():
            box.visible = name == self.tabs.open
        # Sent when it is first looked at: what nobody opens is no part of anybody's wait.
        if self.boxes[self.tabs.open].objects != [self.views[self.tabs.open]]:
            self.boxes[self.tabs.open].objects = [self.views[self.tabs.open]]
        if self.tabs.open == "change":
            self.tipping.show(moment, touched)
            self.curve.show(moment, factor)
        elif self.tabs.open == "why":
            self.why.show()
        elif self.tabs.open == "beside":
            self.compared.show(other)
        else:
            self.sure.show()
