"""Report: the client's document as it will lie on the table, with what it says and its files."""

from datetime import date
from html import escape
from typing import Any

import panel as pn

from dashboard import theme
from dashboard.pages import survey_form as form
from dashboard.pages.page import Page
from dashboard.pages.plan_forms import CHANGED
from dashboard.pages.plan_work import PlanWork
from dashboard.pages.report_files import LISTS, PEGS, content
from dashboard.pages.survey_form import Field, Form
from dashboard.report import PARTS, Brief, Findings, Plan, document, findings, pdf
from dashboard.report.brief import BRIEF_FILE, PAPERS, brief_text, changed, read_brief
from dashboard.session import Progress, Session
from model.language import _, marked
from model.study import Study

MEMORY = "report"
WIDE: dict[str, Any] = {"sizing_mode": "stretch_width", "margin": 0}
FIELDS = (
    ("text", "title", marked("Title"), marked("left blank: Where to plant, and the site's name")),
    ("text", "prepared_for", marked("Prepared for"), ""),
    ("text", "prepared_by", marked("Prepared by"), ""),
    ("text", "reference", marked("Reference"), ""),
    ("area", "job", marked("The job, in a paragraph"), marked("what was asked, of whom, by when")),
)


class Report(Page):
    """The choices at the left, the document beside them."""

    path = "report"
    label = "Report"
    about = "Type in for whom and by whom, choose the parts, and save the document as HTML or PDF."

    def __init__(self, session: Session, **choices: Any) -> None:
        super().__init__(session, **choices)
        self.study = session.study
        self.plan_work = PlanWork(session, lambda: None)
        kept = session.memory.setdefault(MEMORY, {})
        if "brief" not in kept:
            kept["brief"] = read_brief(session.folder)
        self.head = Form(self._told, css_classes=["head"])
        self.form = Form(self._told, css_classes=["asked"])
        self.frame = pn.pane.HTML(
            "", stylesheets=[theme.AS_IS, FRAME], css_classes=["paper"],
            sizing_mode="stretch_both", margin=0,
        )  # fmt: skip
        self.main = pn.Column(
            self.head, self.form, self.frame,
            sizing_mode="stretch_both", stylesheets=[LAYOUT], css_classes=["report"], margin=0,
        )  # fmt: skip
        self.draw()

    @property
    def brief(self) -> Brief:
        """What was typed in and chosen."""
        return changed_feet(self.session.memory[MEMORY]["brief"], feet=self.session.feet)

    @property
    def found(self) -> Findings | None:
        """What the report tells of; None until it is reckoned, or once things have changed."""
        made = self.session.memory[MEMORY].get("made")
        return made[1] if made and made[0] == self._state() else None

    def refresh(self) -> None:
        """Read the plan as it stands now, and reckon anew where anything has changed."""
        self.plan_work = PlanWork(self.session, lambda: None)
        if self.found is None:
            # What is written before the page has loaded may be lost on its way to the browser.
            pn.state.onload(self.reckon)
        self.draw()

    def _state(self) -> tuple[Any, ...]:
        """All that the findings follow from."""
        work, study = self.plan_work, self.study
        return (
            study.ground, study.options, weighed(study), work.kept.placement,
            tuple(work.kept.planted.items()), work.kept.others, work.prices(), work.order(),
            tuple(work.outdated()), study.place if not study.site.spots else -1,
        )  # fmt: skip

    def plan(self) -> Plan | None:
        """The session's plan, None where nothing is placed."""
        work, kept = self.plan_work, self.plan_work.kept
        if kept.placement is None or not kept.placement.trees:
            return None
        return Plan(
            kept.placement, work.order(), work.prices(), kept.planted, kept.others,
            bool(kept.made_by), tuple(_(CHANGED[one]) for one in work.outdated()),
        )  # fmt: skip

    def reckon(self, *, sure: bool = False) -> None:
        """Reckon the findings off the server's loop; with `sure` try each choice as well."""
        state, plan, twin = self._state(), self.plan(), self.session.twin()
        today = date.today()

        def work(progress: Progress) -> Findings:
            def say(place: str) -> None:
                progress(_("Trying how sure it is: {place}").format(place=place))

            return findings(twin, plan, today, sure=sure, say=say)

        def then(found: Findings) -> None:
            self.session.memory[MEMORY]["made"] = state, found
            self.draw()

        self.session.run(_("Writing the report"), work, then)

    def html(self) -> str:
        """The document; empty until it is reckoned."""
        return document(self.found, self.brief) if self.found else ""

    def draw(self) -> None:
        """Write the choices and the document."""
        html = self.html()
        with pn.io.hold():
            self.head.fill("report head", self._head())
            self.form.fill("report", self._fields())
            self.frame.object = framed(html) if html else waiting()

    def _head(self) -> list[Field]:
        ready, planned = self.found is not None, self.plan() is not None
        fields: list[Field] = [{"kind": "title", "label": _(self.label)}]
        if not planned:
            fields += [
                form.note(_("Nothing is placed yet: the report tells what leads at each peg. Place "
                            "an order for a plan with its list and calendar.")),
                form.buttons("go", {"id": "plan", "label": _("Open Plan")}),
            ]  # fmt: skip
        fields.append(
            form.buttons(
                "file",
                form.main_button("report.pdf", _("Save as PDF"), disabled=not ready),
                {"id": "report.html", "label": _("Save as HTML"), "disabled": not ready},
            )
        )
        return fields

    def _fields(self) -> list[Field]:
        ready, planned = self.found is not None, self.plan() is not None
        brief, session = self.brief, self.session
        papers = [(one, _(said)) for one, said in PAPERS.items()]
        fields: list[Field] = [
            form.heading(_("What it says at its head")),
        ]
        for kind, name, label, about in FIELDS:
            typed = {"kind": kind, "name": name, "label": _(label), "value": getattr(brief, name)}
            fields.append(typed | ({"help": _(about)} if about else {}))
        fields += [
            form.heading(_("Paper and parts")),
            form.choice("paper", _("Paper"), papers, brief.paper),
            {"kind": "check", "name": "feet", "label": _("Lengths in feet and inches"),
             "value": session.feet},
        ]  # fmt: skip
        for name, label in PARTS.items():
            fields.append(
                {"kind": "check", "name": name, "label": _(label), "value": brief.has(name)}
            )
        fields += self._more(ready, planned)
        return fields

    def _more(self, ready: bool, planned: bool) -> list[Field]:
        """How sure it is, and the files beside the document."""
        tried = bool(self.found and self.found.sure)
        said = (
            _("Tried: it stands in the report.")
            if tried
            else _(
                "Tries 2000 other weightings and surveys at every tree; it takes a minute or more."
            )
        )
        files = lambda names: [  # noqa: E731 -- one line
            {"id": name, "label": name, "disabled": not ready} for name in names
        ]
        fields = [
            form.heading(_("How sure it is")),
            form.note(said, "help"),
            form.buttons("sure", {"id": "sure", "label": _("Try how sure it is"),
                                  "disabled": not ready or tried}),
            form.heading(_("Files beside it")),
            form.note(_("Pegs for a map, a spreadsheet and a receiver"), "help"),
            form.buttons("file", *files(PEGS)),
        ]  # fmt: skip
        if planned:
            fields += [
                form.note(_("The plan's lists"), "help"),
                form.buttons("file", *files(LISTS)),
            ]
        return fields

    def _told(self, name: str, value: Any) -> None:
        session = self.session
        if name == "file":
            self._hand(str(value))
        elif name == "go":
            session.page = "plan"
        elif name == "sure":
            self.reckon(sure=True)
        elif name == "feet":
            session.feet = bool(value)
        else:
            kept = session.memory[MEMORY]
            kept["brief"] = changed(kept["brief"], name, value)
            session.keep(BRIEF_FILE, brief_text(kept["brief"]))
            self.draw()
            session.settled()

    def _hand(self, name: str) -> None:
        """Hand the visitor a file."""
        found, html = self.found, self.html()
        if found is None:
            return
        if name == "report.html":
            self.head.download(name, html.encode())
        elif name == "report.pdf":
            self.session.run(
                _("Printing the report"),
                lambda _progress: pdf(html),
                lambda made: self.head.download(name, made),
            )
        else:
            written = content(found, name)
            if written is not None:
                self.head.download(name, written)


def weighed(study: Study) -> tuple[Any, ...]:
    """What scores follow from beside the land, as a value to compare."""
    kept = study.snapshot()
    return tuple(kept["weights"].tolist()), kept["trade_off"], repr(kept["settings"])


def changed_feet(brief: Brief, *, feet: bool) -> Brief:
    """The brief in the visitor's own units."""
    return Brief(**{**vars(brief), "feet": feet})


def framed(html: str) -> str:
    """The document in a frame of its own, in which nothing runs and nothing leads elsewhere."""
    inside = escape(html.replace("<a href=", "<a data-to="), quote=True)
    return f'<iframe title="{escape(_("The report"))}" sandbox srcdoc="{inside}"></iframe>'


def waiting() -> str:
    """What stands in place of the document while it is reckoned."""
    said = _("The report is being reckoned; it stands here in a few seconds.")
    return f"<p>{escape(said)}</p>"


FRAME = f"""
:host {{ font: 14px/1.4 {theme.FONT}; color: {theme.INK}; }}
iframe {{ width: 100%; height: 100%; border: 1px solid {theme.FAINT}; background: #fff;
  box-sizing: border-box; display: block; }}
p {{ margin: 16px; }}
"""
LAYOUT = f"""
:host {{ display: grid !important; box-sizing: border-box; gap: 4px 14px; padding: 8px 14px;
  height: 100%; width: 100%; overflow: hidden; background: {theme.PAPER};
  grid-template: auto minmax(0, 1fr) / 300px minmax(0, 1fr);
  grid-template-areas: "head paper" "asked paper"; }}
.head {{ grid-area: head; }}
.asked {{ grid-area: asked; min-height: 0; height: 100%; overflow: hidden auto; }}
.paper {{ grid-area: paper; min-height: 0; height: 100%; }}
@media (max-width: {theme.NARROW - 1}px) {{
  :host {{ display: flex !important; flex-direction: column; overflow: hidden auto; }}
  .head, .asked {{ height: auto; flex: none; overflow: visible; }}
  .paper {{ height: 62vh; min-height: 420px; flex: none; order: 1; }}
  .asked {{ order: 2; }}
}}
"""
