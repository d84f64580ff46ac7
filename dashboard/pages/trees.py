"""Trees: what can be planted, found and compared; the short list and the order beside it."""

from collections.abc import Mapping
from typing import Any

import panel as pn

from dashboard.pages import survey_form as form
from dashboard.pages import trees_card, trees_list, trees_rows
from dashboard.pages.page import Page
from dashboard.pages.survey_form import Field, Form
from dashboard.pages.trees_browse import Browse
from dashboard.pages.trees_compare import comparison
from dashboard.pages.trees_layout import CARD, LAYOUT, TABS
from dashboard.pages.trees_list import Lines
from dashboard.pages.trees_order import MOST, OrderRow, counted
from dashboard.pages.trees_own import OwnTrees
from dashboard.pages.trees_work import FULL_GROWN, MOST_COMPARED, TreesWork
from dashboard.session import Session
from model.language import _
from model.trees import Option

PANELS = {
    "list": "Short list",
    "card": "Card",
    "compare": "Compare",
    "order": "Order",
    "own": "Your own",
}


class Trees(Page):
    """The table at the left; card, short list, comparison, order or form at the right."""

    path = "trees"
    label = "Trees"
    about = "Find what can be planted, compare it, and put it on the short list."

    def __init__(self, session: Session, **choices: Any) -> None:
        super().__init__(session, **choices)
        self.work = TreesWork(session)
        self.own = OwnTrees(self.work)
        focus = self.work.look.focus
        self.tabs = Form(self._headed, css_classes=["tabs", "at-all"], stylesheets=[TABS])
        self.browse = Browse(self._browsed, css_classes=["all"], focus=focus)
        self.lines = Lines(self._lined, focus=focus)
        self.form = Form(self._told)
        self.card = pn.pane.HTML("", stylesheets=[CARD], margin=0)
        self.traits = pn.pane.HTML("", stylesheets=[CARD], margin=0)
        wide = {"margin": 0, "sizing_mode": "stretch_width"}
        parts = (self.card, self.lines, self.form, self.traits)
        self.panel = pn.Column(*parts, css_classes=["panel"], **wide)
        self.main = pn.Column(
            self.tabs, self.browse, self.panel,
            sizing_mode="stretch_both", stylesheets=[LAYOUT], css_classes=["trees"], margin=0,
        )  # fmt: skip
        self.wish: str = ""
        self.draw()

    def refresh(self) -> None:
        """Draw what other pages may have changed meanwhile."""
        if self.work.session.study is self.work.study:
            self.draw()

    def query(self) -> dict[str, str]:
        """What is looked for and at as words of a link."""
        look = self.work.look
        asked = {f"find.{name}": words for name, words in look.asked.items() if words}
        return {"panel": look.panel, "tree": trees_rows.ident(self.chosen)} | asked

    def follow(self, words: Mapping[str, str]) -> list[str]:
        """Look for and at what a link says; a sentence for a tree that there is not."""
        look, tree = self.work.look, self._tree(words.get("tree"))
        asked = {name: words[f"find.{name}"] for name in FILTERS if f"find.{name}" in words}
        if asked:
            look.asked, look.page = asked, 0
        look.panel = words["panel"] if words.get("panel") in PANELS else look.panel
        look.chosen = tree or look.chosen
        self.draw()
        missing = _("The link's tree is not in this catalogue: {tree}.")
        return [missing.format(tree=words["tree"])] if "tree" in words and not tree else []

    @property
    def chosen(self) -> Option:
        """The tree whose card it is."""
        look = self.work.look
        return look.chosen or self.work.study.options[0]

    def draw(self) -> None:
        """Write what is looked for and at into everything that shows it."""
        work, look = self.work, self.work.look
        work.judge_list()
        with pn.io.hold():
            self.browse.param.update(**trees_rows.table(work, work.found()))
            self.tabs.fill("tabs", self._tabs())
            self._draw_panel()
            side = "at-panel" if look.in_front else "at-all"
            if self.main.css_classes != ["trees", side]:
                self.main.css_classes = ["trees", side]
                self.tabs.css_classes = ["tabs", side]
        look.focus = ""

    def _draw_panel(self) -> None:
        work, panel = self.work, self.work.look.panel
        blocks: list[dict[str, Any]] = []
        if panel == "list":
            blocks = trees_list.list_blocks(work)
        elif panel == "order":
            blocks = trees_list.order_blocks(work)
        self.lines.blocks = blocks
        self.lines.visible = bool(blocks)
        fields = {"card": self._card, "order": self._wishes, "own": self.own.fields}
        shown = fields[panel]() if panel in fields else []
        self.form.fill(panel, shown)
        self.form.visible = bool(shown)
        said = {"card": self._card_text, "compare": lambda: comparison(work, work.look.compared)}
        self.card.object = said[panel]() if panel in said else ""
        self.card.visible = panel in said
        self.traits.object = self._traits_text() if panel == "card" else ""
        self.traits.visible = panel == "card"

    def _tabs(self) -> list[Field]:
        look = self.work.look
        counts = {
            "list": len(self.work.study.options),
            "compare": len(look.compared),
            "order": sum(row.count for row in self.work.order()),
        }
        tabs = [{"id": "all", "label": _("All trees"), "pressed": str(not look.in_front).lower()}]
        for name, label in PANELS.items():
            count = f" ({counts[name]})" if counts.get(name) else ""
            pressed = str(name == look.panel).lower()
            tabs.append({"id": name, "label": _(label) + count, "pressed": pressed})
        title = {"kind": "title", "label": _(self.label)}
        return [title, form.buttons("panel", *tabs)]

    def _card_text(self) -> str:
        work, look = self.work, self.work.look
        picture = trees_card.drawing(work, self.chosen, look.years)
        return trees_card.head(work, self.chosen) + picture

    def _traits_text(self) -> str:
        partners = trees_card.partners(self.work, self.chosen)
        return partners + trees_card.traits_table(self.work, self.chosen)

    def _card(self) -> list[Field]:
        look, tree = self.work.look, self.chosen
        years = look.years or FULL_GROWN
        label = (
            _("Drawn full grown")
            if years >= FULL_GROWN
            else _("Drawn {years} years after planting").format(years=years)
        )
        slide = {"kind": "range", "name": "years", "label": label, "value": years}
        listed = self.work.listed(tree)
        act = (
            ("remove", _("Remove from the short list"))
            if listed
            else form.main_button("add", _("Add to the short list"))
        )
        compared = str(tree in look.compared).lower()
        compare = {"id": "compare", "label": _("Compare"), "pressed": compared}
        weigh = [("weigh", _("See it on Weigh"))] if listed else []
        ladder = _("Picking off a ladder: firm ground, someone at its foot, never the top rungs.")
        number = self.work.number[tree]
        tall = self.work.here.size.height[1, number, 0] > LADDER_NEEDED
        return [
            {**slide, "low": 1, "high": FULL_GROWN, "step": 1},
            *([form.note(ladder, "caution")] if tall else []),
            form.buttons("card", act, compare, *weigh),
        ]

    def _wishes(self) -> list[Field]:
        listed = trees_list.wishes(self.work)
        if self.wish not in dict(listed):
            self.wish = listed[0][0]
        help_ = _("A line can name one tree, or leave the choice among the short list to the plan.")
        return [
            form.subheading(_("Add a line")),
            form.choice("wish", _("What"), listed, self.wish, help=help_),
            form.buttons("order", form.main_button("line", _("Add the line"))),
            form.note(_("A budget is set on the Plan page, where the prices are."), "help"),
        ]

    # -- what was pressed ------------------------------------------------------------------------

    def _headed(self, name: str, value: Any) -> None:
        look = self.work.look
        if name == "panel" and value == "all":
            look.in_front = False
        elif name == "panel" and value in PANELS:
            look.panel, look.in_front = str(value), True
        self._again()

    def _browsed(self, name: str, value: Any) -> None:
        work, look = self.work, self.work.look
        tree = self._tree(value)
        if name in ("add", "remove") and tree:
            look.focus = f"list-{value}"
            (work.add if name == "add" else work.remove)(tree)
        elif name == "open" and tree:
            self._open(tree)
        elif name == "compare" and tree:
            self._compare(tree)
        elif name == "sort" and value in ("tree", "height", "flowers", "picked", "score"):
            falls = value == "score" if look.sort != value else not look.falling
            look.sort, look.falling, look.page = value, falls, 0
        elif name == "page" and isinstance(value, int):
            look.page = value
        elif name == "act" and value == "clear":
            look.asked, look.page = {}, 0
        elif name == "act" and value == "judge":
            work.judge_all(self._unjudged(), self.draw)
        elif name in FILTERS and isinstance(value, str):
            look.asked, look.page = {**look.asked, name: value}, 0
        self._again()

    def _unjudged(self) -> Any:
        work = self.work
        return [n for n in work.found() if work.here.options[n] not in work.look.judged]

    def _again(self) -> None:
        """Draw, unless the step has replaced the study: the shell then builds the page anew."""
        if self.session.study is self.work.study:
            self.draw()
            self.session.settled()

    def _tree(self, value: Any) -> Option | None:
        """The tree of a name sent by the page."""
        parts = value.split("|") if isinstance(value, str) else []
        option = Option(*parts) if len(parts) == 3 else None
        return option if option in self.work.number else None

    def _open(self, tree: Option) -> None:
        look, study = self.work.look, self.work.study
        look.chosen, look.panel, look.in_front = tree, "card", True
        if tree in study.options:
            study.option = study.options.index(tree)

    def _compare(self, tree: Option) -> None:
        look = self.work.look
        if tree in look.compared:
            look.compared = tuple(one for one in look.compared if one != tree)
            return
        look.compared = (*look.compared, tree)[-MOST_COMPARED:]
        look.panel = "compare" if len(look.compared) > 1 else look.panel

    def _lined(self, act: str, value: str) -> None:
        work = self.work
        tree = self._tree(value)
        work.look.focus = f"line-{act}-{value}"
        if act == "undo":
            work.take_back()
        elif tree and act == "open":
            self._open(tree)
        elif tree and act in ("up", "down") and work.listed(tree):
            work.move(tree, -1 if act == "up" else 1)
        elif tree and act == "remove":
            work.remove(tree)
        elif value.isdigit() and int(value) < len(work.order()):
            rows, number = work.order(), int(value)
            if act == "drop":
                work.reorder((*rows[:number], *rows[number + 1 :]))
            elif act in ("fewer", "more"):
                work.reorder(counted(rows, number, 1 if act == "more" else -1))
        self._again()

    def _told(self, name: str, value: Any) -> None:
        work, look = self.work, self.work.look
        if name == "years":
            years = int(float(value))
            look.years = 0 if years >= FULL_GROWN else max(years, 1)
        elif name == "card" and value in ("add", "remove"):
            (work.add if value == "add" else work.remove)(self.chosen)
        elif name == "card" and value == "compare":
            self._compare(self.chosen)
        elif name == "card" and value == "weigh":
            self._open(self.chosen)
            self.session.page = "weigh"
            return
        elif name == "wish":
            self.wish = str(value)
        elif name == "order" and value == "line":
            self._order_line()
        elif look.panel == "own":
            self.own.told(name, value)
        self._again()

    def _order_line(self) -> None:
        species, cultivar, rootstock, use = (*self.wish.split("|"), "", "", "")[:4]
        rows = self.work.order()
        asked = OrderRow(1, species, cultivar, rootstock, use)
        same = [n for n, row in enumerate(rows) if row.names == asked.names and row.count < MOST]
        self.work.reorder(counted(rows, same[0], 1) if same else (*rows, asked))


LADDER_NEEDED = 2.5  # [m] above which fruit is out of reach from the ground (common practice)
FILTERS = ("text", "species", "use", "height", "pollen", "month", "land", "kept")
