"""Plan: an order placed on the land, dragged, blocked and compared; with its list and calendar."""

from html import escape
from typing import Any

import numpy as np
import panel as pn

from dashboard.pages import plan_forms as forms
from dashboard.pages import survey_form as form
from dashboard.pages.page import Page
from dashboard.pages.plan_below import Below
from dashboard.pages.plan_layout import ABOVE, KEY, LAYOUT
from dashboard.pages.plan_map import PlanMap
from dashboard.pages.plan_work import PlanWork
from dashboard.pages.survey_form import Form
from dashboard.pages.trees_list import Lines
from dashboard.pages.trees_order import MOST, OrderRow, counted
from dashboard.plots import plan_map
from dashboard.session import Session
from model.language import _
from model.planting.candidates import place_name
from model.planting.placement import Planted
from model.results import TIE

REASONS_SHOWN = 4
WIDE: dict[str, Any] = {"sizing_mode": "stretch_width", "margin": 0}


class Plan(Page):
    """The order at the left of the map, what it comes to at the right, the lists below."""

    path = "plan"
    label = "Plan"
    about = "Make an order, place it, drag a tree to see what that costs, block a hole."

    def __init__(self, session: Session, **choices: Any) -> None:
        super().__init__(session, **choices)
        self.study = session.study
        self.work = PlanWork(session, self._stepped)
        self.chosen, self.trial, self.linked = 0, (0, -1), False
        self.wish, self.why = forms.wishes(self.work)[0][0], forms.REASONS[0]
        marks, home = plan_map.ground(self.study)
        self.map = PlanMap(
            self._acted, marks=marks, home=home, feet=session.feet, sizing_mode="stretch_both",
        )  # fmt: skip
        self.lines = Lines(self._lined)
        self.asked, self.told, self.tree = Form(self._said), Form(self._said), Form(self._said)
        self.links = Form(self._said)
        key = pn.pane.HTML(key_text(), stylesheets=[KEY], **WIDE)
        self.below = Below(self.work, self.draw)
        self.above = pn.Column(
            pn.Column(self.lines, self.asked, css_classes=["asked"], **WIDE),
            pn.Column(self.map, css_classes=["map"], margin=0),
            pn.Column(self.links, key, css_classes=["key"], **WIDE),
            pn.Column(self.tree, self.told, css_classes=["told"], **WIDE),
            stylesheets=[ABOVE], margin=0, sizing_mode="stretch_width",
        )  # fmt: skip
        self.main = pn.Column(
            self.above, self.below.view, sizing_mode="stretch_both", stylesheets=[LAYOUT],
            css_classes=["plan"], margin=0,
        )  # fmt: skip
        session.param.watch(lambda event: self._done() if not event.new else None, "doing")
        self.draw()

    def refresh(self) -> None:
        """Draw what other pages may have changed meanwhile."""
        self.draw()
        # What is set before the page has loaded would be lost on its way to the browser.
        pn.state.onload(self.below.reckon)

    # -- drawing ---------------------------------------------------------------------------------

    def draw(self) -> None:
        """Write the plan into everything that shows it."""
        work, kept = self.work, self.work.kept
        if self.chosen > len(work.trees):
            self.chosen = 0
        places = self.study.ground.places
        with pn.io.hold():
            self.map.param.update(
                trees=plan_map.trees(self.study, work.trees, kept.stays, kept.planted),
                ghosts=plan_map.ghosts(kept.before, work.trees),
                blocked=[[float(places.x[one]), float(places.y[one])] for one in kept.blocked],
                chosen=self.chosen,
                trial=self._trial(),
                links=plan_map.links(self.study, work.order(), work.trees) if self.linked else [],
            )
            self.lines.blocks = forms.order_blocks(work)
            self._ask()
            self.links.fill("links", self._links())
            self.told.fill("plan", forms.plan_fields(work))
            tree = self._tree()
            fields = forms.tree_fields(work, self.chosen, tree, self.why) if tree else []
            self.tree.fill(f"tree{self.chosen}", fields)
            self.tree.visible = tree is not None
            # On a phone a plan comes before the order that it was made of.
            self.above.css_classes = ["above", "placed" if work.trees else "empty"]

    def _ask(self) -> None:
        title = {"kind": "title", "label": _(self.label)}
        self.asked.fill("order", [title, *forms.order_fields(self.work, self.wish)])

    def _done(self) -> None:
        """Long work has ended, well or not: the order may be placed again."""
        self.work.busy = False
        self._ask()

    def _links(self) -> list[form.Field]:
        if not self.work.trees:
            return []
        shown = {"id": "links", "label": _("Show who serves whom in flower")}
        return [form.buttons("links", {**shown, "pressed": str(self.linked).lower()})]

    def _tree(self) -> Planted | None:
        return self.work.trees[self.chosen - 1] if self.chosen else None

    def _stepped(self) -> None:
        self.trial = (0, -1)
        self.draw()
        self.below.reckon()
        self.session.settled()

    # -- dragging --------------------------------------------------------------------------------

    def _acted(self, act: str, tree: int, x: float, y: float) -> None:
        if act == "choose":
            self.chosen, self.trial = tree, (0, -1)
            self.draw()
        elif act in ("try", "done") and tree:
            place = self.study.ground.places.nearest(x, y, reach=1.0)
            self.trial = (tree, place)
            if act == "done" and self.chosen != tree:
                self.chosen = tree
                self.draw()
            else:
                self.map.trial = self._trial(done=act == "done")
        elif act == "keep" and self.trial[0]:
            number, place = self.trial
            self.work.move(self.work.trees[number - 1], place)
        elif act == "back":
            self.trial = (0, -1)
            self.map.trial = {}

    def _trial(self, done: bool = True) -> dict[str, Any]:
        """Where a tree is tried and what that costs."""
        number, place = self.trial
        moves = self.work.moves if 0 < number <= len(self.work.trees) else None
        if moves is None:
            return {}
        tree, places = self.work.trees[number - 1], self.study.ground.places
        found = moves.moved(tree, place)
        taken = place != tree.place and place in {one.place for one in self.work.trees}
        headline = _("{tree}, {place}: {change}").format(
            tree=self.study.options[tree.option].cultivar,
            place=place_name(self.study, place), change=change_words(found.change),
        )  # fmt: skip
        reasons = [f"{one[:1].upper()}{one[1:]}." for one in found.reasons]
        more = len(reasons) - REASONS_SHOWN
        if more > 0:
            reasons = [*reasons[:REASONS_SHOWN], _("And {count} more.").format(count=more)]
        if not reasons:
            reasons = [_("Room enough, and no partner is lost.")]
        words = [self.session.shown(one) for one in (headline, *reasons)]
        bad = bool(found.reasons) or found.change < -TIE
        return {
            "id": number, "x": float(places.x[place]), "y": float(places.y[place]),
            "words": words, "tone": "bad" if bad else "good", "done": done,
            "off": bool(np.isnan(found.change)) or taken or place == tree.place,
        }  # fmt: skip

    # -- what was pressed ------------------------------------------------------------------------

    def _lined(self, act: str, value: str) -> None:
        rows = self.work.rows()
        if not value.isdigit() or int(value) >= len(rows):
            return
        number = int(value)
        if act == "drop":
            rows = (*rows[:number], *rows[number + 1 :])
        elif act in ("fewer", "more"):
            rows = counted(rows, number, 1 if act == "more" else -1)
        self.work.reorder(rows)
        self.draw()
        self.session.settled()

    def _said(self, name: str, value: Any) -> None:
        acts = {"wish": self._wish, "order": self._line, "place": self._place, "links": self._link,
                "step": self._back, "use": self._use, "open": self._open, "tree": self._keep,
                "there": self._there, "why": self._reason, "block": self._block}  # fmt: skip
        if name in acts:
            acts[name](str(value))
        elif name in ("pegs_only", "planted_stay"):
            self.work.set(**{name: bool(value)})
            self.draw()
        elif name in ("budget", "bee_range", "parts", "at_once"):
            self._set(name, str(value))

    def _set(self, name: str, value: str) -> None:
        text = value.strip().replace(",", ".")
        blank = {"budget": None, "bee_range": 18.0, "at_once": None, "parts": 0}
        try:
            number = float(text) if text else None
        except ValueError:
            number = -1.0
        whole = name in ("parts", "at_once")
        if number is not None and not (0 <= number < 1e6 and (not whole or number == int(number))):
            said = _("Found {found}, expected a number from 0, mend by typing one.")
            self.session.said = said.format(found=value)
        elif not number:
            self.work.set(**{name: blank[name]})
        else:
            self.work.set(**{name: int(number) if whole else number})
        self.draw()

    def _wish(self, value: str) -> None:
        if value in dict(forms.wishes(self.work)):
            self.wish = value

    def _line(self, _value: str) -> None:
        names = self.wish.split("|")
        rows = self.work.rows()
        asked = OrderRow(1, *names)
        same = [n for n, row in enumerate(rows) if row.names == asked.names and row.count < MOST]
        self.work.reorder(counted(rows, same[0], 1) if same else (*rows, asked))
        self.draw()
        self.session.settled()

    def _place(self, _value: str) -> None:
        if not self.work.busy and self.work.rows():
            self.chosen = 0
            self.work.place()
            self._ask()

    def _link(self, _value: str) -> None:
        self.linked = not self.linked
        self.draw()

    def _back(self, _value: str) -> None:
        self.work.undo()

    def _use(self, value: str) -> None:
        if value.isdigit():
            self.work.use(int(value))

    def _open(self, value: str) -> None:
        if value.isdigit():
            self.work.unblock(int(value))

    def _keep(self, value: str) -> None:
        tree = self._tree()
        if tree is not None:
            self.work.keep(tree, is_set=value == "set")

    def _there(self, value: str) -> None:
        if value.isdigit() and self.chosen and int(value) < self.study.ground.places.x.size:
            self.trial = (self.chosen, int(value))
            self.map.trial = self._trial()

    def _reason(self, value: str) -> None:
        self.why = value if value in forms.REASONS else self.why

    def _block(self, _value: str) -> None:
        tree = self._tree()
        if tree is not None and not self.work.busy:
            self.chosen = 0
            self.work.block(tree, self.why)


def change_words(change: float) -> str:
    """What a move does to a tree's score, in points of 100.

    >>> change_words(-0.123), change_words(0.002)
    ('12 points of 100 less', 'as good, within the survey error')
    """
    if np.isnan(change):
        return _("it cannot stand there")
    if abs(change) <= TIE:
        return _("as good, within the survey error")
    count = max(round(100 * abs(change)), 1)
    said = _("{count} points of 100 more") if change > 0 else _("{count} points of 100 less")
    return said.format(count=count)


def key_text() -> str:
    """What the marks of the map mean."""
    signs = (
        ("<i class='crown'></i>", _("crown full grown")),
        ("<i class='range'></i>", _("smallest to largest")),
        ("<i class='set'></i>", _("set tree")),
        ("<i class='was'></i>", _("where it stood before")),
        ("<b class='cross' aria-hidden='true'>\N{MULTIPLICATION SIGN}</b>", _("blocked hole")),
        ("<i class='link'></i>", _("serve each other in flower")),
    )
    items = "".join(f"<li>{sign}{escape(word)}</li>" for sign, word in signs)
    return f"<ul aria-label='{escape(_('Key to the map'))}'>{items}</ul>"
