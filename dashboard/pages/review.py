"""Review: a year on, what was expected against what was seen, and keep or move for each tree."""

from collections import Counter
from datetime import date
from html import escape
from typing import Any

import panel as pn

from dashboard import theme
from dashboard.live import Drawing
from dashboard.pages.page import Page
from dashboard.pages.review_cards import ReviewCards, cards
from dashboard.pages.review_survey import IntoSurvey
from dashboard.pages.review_watch import Watching
from dashboard.pages.survey_form import Form, buttons, heading, main_button, note
from dashboard.plots import review_map
from dashboard.session import Session
from model.language import _
from model.planting.year_after.review import Review as Made
from model.planting.year_after.review import review
from model.planting.year_after.standing import StandingTree, standing_trees
from model.survey.faults import SurveyFaults

DAY = "review day"


class Review(Page):
    """Cards and map at the left, what was seen at the right; judged off the server's loop."""

    path = "review"
    label = "Review"
    about = "A year on: type in what you saw, and read whether to keep or move each tree."

    def __init__(self, session: Session, **choices: Any) -> None:
        super().__init__(session, **choices)
        self.study, self._judged = session.study, ""
        self.trees, self.faults = planted(session)
        self.watching = Watching(session, self.trees)
        self.watching.changed = self.draw
        self.into = IntoSurvey(session, lambda: self.watching.seen)
        self.made: Made | None = None
        self.head = pn.pane.HTML("", stylesheets=[HEAD], css_classes=["head"], **WIDE)
        self.cards = ReviewCards(self._weigh, css_classes=["cards"])
        self.form = Form(self._told, css_classes=["form"])
        self.empty = Form(self._told, css_classes=["empty"])
        places, features = self.study.ground.places, self.study.site.features
        columns = review_map.layers(places, ())
        self.drawing = Drawing(
            "review map", review_map.plot(columns, features, places, session.feet), columns,
            sizing_mode="stretch_width", height=360, stylesheets=[theme.AS_IS],
        )  # fmt: skip
        self.map_head = pn.pane.HTML("", stylesheets=[HEAD], **WIDE)
        left = pn.Column(self.head, self.empty, self.cards, css_classes=["left"], **WIDE)
        right = pn.Column(
            self.map_head, self.drawing.view, self.form, css_classes=["right"], **WIDE
        )
        self.main = pn.Column(
            left, right,
            sizing_mode="stretch_both", css_classes=["review"], stylesheets=[LAYOUT], margin=0,
        )  # fmt: skip
        self.draw()

    def refresh(self) -> None:
        """Read what other pages may have changed meanwhile, and judge anew where it matters."""
        trees, faults = planted(self.session)
        if (trees, faults) != (self.trees, self.faults):
            self.trees, self.faults = trees, faults
            self.watching = Watching(self.session, trees)
            self.watching.changed = self.draw
        self.draw()

    def draw(self) -> None:
        """Write what is known into everything that shows it, and judge what has changed."""
        with pn.io.hold():
            self.empty.fill("empty", self._empty())
            self.form.fill("watch", self._fields())
            self._show()
        if self.watching.ready is not None:
            self.form.download(*self.watching.ready)
            self.watching.ready = None
        # What is written between the page's making and its loading is lost on its way.
        pn.state.onload(self._judge)

    @property
    def day(self) -> date:
        """The day judged by: that of the last thing seen, today where nothing was."""
        seen = [one.date for one in self.watching.seen]
        return max(seen, default=date.today())

    def _judge(self) -> None:
        """Judge every tree off the server's loop, unless nothing has changed."""
        state = repr((self.trees, self.watching.seen, self.study.snapshot(), self.day))
        if not self.trees or state == self._judged:
            return
        self._judged = state
        study, trees, seen, day = self.session.twin(), self.trees, self.watching.seen, self.day

        def then(made: Made) -> None:
            if state == self._judged:  # else something was typed meanwhile
                self.made = self.into.made = made
                with pn.io.hold():
                    self.form.fill("watch", self._fields())
                    self._show()

        said = _("Setting what was seen against the map")
        self.session.run(said, lambda _progress: review(study, trees, seen, day), then)

    def _show(self) -> None:
        trees = self.made.trees if self.made else ()
        self.head.object = f"<h1>{escape(_('A year on'))}</h1><p>{escape(self._summary())}</p>"
        shown = self.session.shown
        self.cards.cards = cards(self.study, self.made, shown) if self.made else []
        self.drawing.write(review_map.layers(self.study.ground.places, trees, self.study.options))
        moves = [one for one in trees if one.advice != "keep" and one.there is not None]
        told = _("Arrows: from the old peg to the new; dashed, if a second look confirms it.")
        said = told if moves else _("The trees of the plan; no tree moves.")
        self.map_head.object = f"<h2>{escape(_('On the land'))}</h2><p>{escape(said)}</p>"

    def _summary(self) -> str:
        """How it stands, in a sentence."""
        if not self.trees:
            return _("There is no plan yet of what stands where.")
        if self.made is None:
            return _("Setting what was seen against the map.")
        count = Counter(one.advice for one in self.made.trees)
        said = {"move": _("to move"), "wait": _("to wait"), "keep": _("to keep")}
        parts = [f"{count[advice]} {label}" for advice, label in said.items() if count[advice]]
        trees = _("1 tree") if len(self.trees) == 1 else f"{len(self.trees)} " + _("trees")
        told = _("{trees}: {parts}. Scores are what these weights make of a place, no forecast.")
        return told.format(trees=trees, parts=", ".join(parts))

    def _empty(self) -> list[dict[str, Any]]:
        """What to do where there is no plan, or one with faults."""
        if self.trees:
            return []
        if self.faults:
            return [
                heading(_("The plan cannot be read")),
                *(note(one, "bad") for one in self.faults),
            ]
        return [
            heading(_("First a plan")),
            note(
                _("Review needs to know what stands where: make a placement on the Plan page, or "
                  "put placement.csv into the folder. Meanwhile pegs can be watched: type in what "
                  "you see.")
            ),
            buttons("go", main_button("plan", _("Open Plan"))),
        ]  # fmt: skip

    def _fields(self) -> list[dict[str, Any]]:
        return [*self.watching.fields(), *(self.into.fields() if self.trees else [])]

    def _told(self, name: str, value: Any) -> None:
        if name == "go":
            self.session.page = str(value)
        elif name == "survey":
            self.into.told(value)
        else:
            self.watching.told(name, value)

    def _weigh(self, what: str, spot: str) -> None:
        """Open Weigh at a tree's place or where it might go."""
        found = [one for one in (self.made.trees if self.made else ()) if one.tree.spot == spot]
        if not found:
            return
        there = found[0].there
        goes = what == "there" and there is not None
        self.study.option = found[0].tree.option
        self.study.place = there.place if goes and there else found[0].tree.place
        self.session.page = "weigh"


def planted(session: Session) -> tuple[tuple[StandingTree, ...], list[str]]:
    """The trees of the working copy's plan, and the faults of its file."""
    if session.folder is None:
        return (), []
    try:
        return standing_trees(session.study, session.folder), []
    except SurveyFaults as error:
        return (), [str(fault) for fault in error.faults]


WIDE: dict[str, Any] = {"sizing_mode": "stretch_width", "margin": 0}
LAYOUT = f"""
:host {{
  display: grid !important; grid-template-columns: minmax(0, 1.75fr) minmax(0, 1fr);
  grid-template-rows: minmax(0, 1fr); gap: 0 22px; box-sizing: border-box; height: 100%;
  width: 100%; padding: 8px 16px 0; overflow: hidden; background: {theme.PAPER};
}}
.left, .right {{ min-height: 0; height: 100%; overflow: hidden auto; padding-right: 6px; }}
@media (max-width: {theme.NARROW - 1}px) {{
  :host {{ display: flex !important; flex-direction: column; overflow: hidden auto; }}
  .left, .right {{ height: auto; max-height: none; flex: none; overflow: visible;
    padding: 0; }}
}}
"""
HEAD = f"""
:host {{ font: 14px/1.4 {theme.FONT}; color: {theme.INK}; }}
h1, h2 {{ font-size: 17px; margin: 2px 0; }}
p {{ margin: 0 0 6px; }}
"""
