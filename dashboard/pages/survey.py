"""Survey: the site pencilled on a plan, with a form for what is chosen."""

from typing import Any

import panel as pn

from dashboard import theme
from dashboard.pages import survey_form as form
from dashboard.pages.page import Page
from dashboard.pages.survey_begin import BeginPanel
from dashboard.pages.survey_feature import FeaturePanel
from dashboard.pages.survey_files import FilesPanel
from dashboard.pages.survey_form import Field, Form
from dashboard.pages.survey_list import ListPanel
from dashboard.pages.survey_measure import figures
from dashboard.pages.survey_picture import PicturePanel
from dashboard.pages.survey_plan import Plan
from dashboard.pages.survey_site import SitePanel
from dashboard.pages.survey_tapes import TapesPanel
from dashboard.pages.survey_work import Work
from dashboard.plots import survey_plan
from dashboard.session import Session
from model.language import _
from model.survey.editing import MARKS

PANELS = (FeaturePanel, ListPanel, SitePanel, TapesPanel, PicturePanel, FilesPanel, BeginPanel)
GROUPS = {"Point": "Points", "LineString": "Lines", "Polygon": "Areas"}
MANY = ("spot", "gate", "tap")  # of which one often places several in a row
NEW_LAND = [-10.0, -10.0, 70.0, 50.0]  # m in view while nothing is drawn


class Survey(Page):
    """Plan, palette and forms over one sketch; every finished step is kept."""

    path = "survey"
    label = "Survey"
    about = "Draw what stands on the land. Every step is kept; judge it when you are ready."

    def __init__(self, session: Session, **choices: Any) -> None:
        super().__init__(session, **choices)
        self.work = Work.of(session)
        self.work.told = self.draw
        self.panels: dict[str, Any] = {panel.path: panel(self.work) for panel in PANELS}
        self.plan = Plan(self._acted, tools=tools(), feet=session.feet, css_classes=["plan"])
        self.head = Form(self._headed, css_classes=["head"])
        self.form = Form(self._told, css_classes=["sheet"])
        self.palette = Form(lambda _name, value: self._take_up(str(value)), margin=(0, 0, 0, 8))
        self.side = self.palette
        self.measured = ""
        wide = {"margin": 0, "sizing_mode": "stretch_width"}
        forms = pn.Column(self.head, self.form, css_classes=["forms"], **wide)
        self.main = pn.Column(
            self.plan,
            forms,
            sizing_mode="stretch_both",
            stylesheets=[LAYOUT],
            css_classes=["survey"],
            margin=0,
        )  # fmt: skip
        self.refit()
        self.draw()

    def refresh(self) -> None:
        """Draw what other pages may have changed meanwhile."""
        self.draw()

    def refit(self) -> None:
        """Bring the whole site into view."""
        marks = self.work.sketch.marks
        home = survey_plan.extent(marks) if marks else NEW_LAND
        self.plan.param.update(home=home, refit=self.plan.refit + 1)

    @property
    def panel(self) -> Any:
        """The form that is open."""
        return self.panels[self.work.panel]

    def draw(self) -> None:
        """Write the sketch as it now is into everything that shows it."""
        work, begin, files = self.work, self.panels["new"], self.panels["files"]
        if begin.wanted is not None:
            shape = MARKS[begin.wanted].geometry[0] if begin.wanted else "Point"
            self.plan.param.update(tool=begin.wanted, shape=shape)
            begin.wanted = None
            self.refit()
        picture = self.panels["picture"]
        marks = survey_plan.drawn_marks(work.sketch.marks, work.faults)
        with pn.io.hold():
            self.plan.param.update(
                marks=marks,
                chosen=work.chosen,
                home=survey_plan.extent(work.sketch.marks) if marks else NEW_LAND,
                steps=[bool(work.history.past), bool(work.history.future)],
                said=self._said(),
                url=picture.url,
                lie=picture.placed,
            )
            self.head.fill("head", self._head())
            self.form.fill(self.panel.key, self.panel.fields())
            self.palette.fill("palette", self._palette())
        if files.ready is not None:
            self.form.download(*files.ready)
            files.ready = None

    def _said(self) -> str:
        """Figures of the chosen feature, or what to do next."""
        tool, mark = self.plan.tool, self.work.mark
        if self.measured:
            return self.measured
        if tool == "pick":
            return _("Tap the point on the picture.")
        if tool:
            label = _("Measure") if tool == "measure" else _(MARKS[tool].label)
            hints = {
                "Point": _("{label}: tap where it stands."),
                "LineString": _("{label}: tap its points one after another, then Finish."),
                "Polygon": _("{label}: tap its corners one after another, then Finish."),
            }
            return hints[self.plan.shape].format(label=label)
        if mark is not None:
            said = figures(mark.points, mark.shape == "Polygon")
            return self.session.shown(f"{mark.label}: {said}")
        return _("Tap a feature to change it, or pick what to draw.")

    def _head(self) -> list[Field]:
        work = self.work
        count = sum(map(len, work.faults.values()))
        if count:
            state = form.note(
                _("{count} to be mended before it can be judged").format(count=count), "bad"
            )
        elif work.is_stale:
            state = form.note(
                _("Kept. Not judged yet: the other pages still show the survey as it was.")
            )
        else:
            state = form.note(_("Judged: all pages show this survey."))
        act = form.main_button("judge", _("Judge this survey"), not work.is_stale or bool(count))
        tabs = [
            {"id": path, "label": _(panel.label), "pressed": str(path == work.panel).lower()}
            for path, panel in self.panels.items()
        ]
        mend = [("mend", _("Show what to mend"))] if count else []
        title = {"kind": "title", "label": _(self.label)}
        return [title, state, form.buttons("act", act, *mend), form.buttons("panel", *tabs)]

    def _palette(self) -> list[Field]:
        items = [self._tool("", _("Choose and move"), "\N{NORTH WEST ARROW}", theme.INK, "")]
        items.append(
            self._tool(
                "measure",
                _("Measure"),
                "\N{LEFT RIGHT ARROW}",
                theme.INK,
                _("length, bearing and area"),
            )
        )
        shown: list[Field] = [form.heading(_("Draw")), _listed(_("Tools"), items)]
        for shape, label in GROUPS.items():
            kinds = [kind for kind in MARKS.values() if kind.geometry[0] == shape]
            rows = [
                self._tool(
                    kind.name,
                    _(kind.label),
                    survey_plan.sign(kind.name),
                    survey_plan.tone(kind.name),
                    _(kind.meaning),
                )
                for kind in kinds
            ]
            shown += [form.subheading(_(label)), _listed(_(label), rows)]
        return shown

    def _tool(self, ident: str, label: str, sign: str, tone: str, title: str) -> dict[str, Any]:
        current = ident == self.plan.tool
        return {
            "id": ident or "choose",
            "label": label,
            "sign": sign,
            "tone": tone,
            "title": title,
            "current": current,
        }

    def _headed(self, name: str, value: Any) -> None:
        if name == "panel" and value in self.panels:
            self.work.panel = str(value)
        elif name == "act" and value == "mend":
            self.work.panel = "list"
        elif name == "act" and value == "judge":
            self.work.judge()
            return
        self.draw()

    def _told(self, name: str, value: Any) -> None:
        before = self.work.sketch.site
        self.panel.told(name, value)
        picking = self.panels["picture"].picking >= 0
        if picking != (self.plan.tool == "pick"):
            self._take_up("pick" if picking else "")
        is_other_land = name in ("folder", "single") or value == "begin"
        if is_other_land and self.work.sketch.site is not before:
            self.panels["picture"] = PicturePanel(self.work)
            self.refit()
            self.draw()

    def _take_up(self, tool: str) -> None:
        """Take up a tool of the palette."""
        tool = "" if tool == "choose" else tool
        if tool and tool not in MARKS and tool not in ("measure", "pick"):
            return
        shape = MARKS[tool].geometry[0] if tool in MARKS else "Point"
        self.plan.param.update(tool=tool, shape="LineString" if tool == "measure" else shape)
        if tool:
            self.work.chosen = 0
        self.measured = ""
        self.draw()

    def _acted(self, act: str, data: dict[str, Any]) -> None:
        """What was done on the plan."""
        work, points = self.work, data["points"]
        number = data.get("id")
        mark = work.sketch.mark(number) if isinstance(number, int) else None
        if act == "measure":
            self._measure(points, bool(data.get("closed")), "at" in data)
            return
        self.measured = ""
        if act == "tool":
            self._take_up(str(data.get("tool")))
        elif act == "place" and points:
            self._place(str(data.get("tool")), points)
        elif act == "choose":
            self._choose(mark.id if mark else 0)
        elif act == "reshape" and mark is not None and points:
            work.step(work.sketch.reshaped(mark.id, points), mark.id)
        elif act == "remove" and mark is not None:
            work.step(work.sketch.removed(mark.id), 0)
        elif act in ("undo", "redo"):
            work.undo() if act == "undo" else work.redo()

    def _measure(self, points: Any, closed: bool, has_cross: bool) -> None:
        self.measured = self.session.shown(figures(points, closed)) if points else ""
        if points and has_cross:
            x, y = points[-1]
            self.measured = self.session.shown(
                _("at {x:.2f} m, {y:.2f} m; {rest}").format(x=x, y=y, rest=figures(points, closed))
            )
        self.plan.said = self._said()

    def _place(self, tool: str, points: Any) -> None:
        if tool == "pick":
            self.panels["picture"].tapped(points[0])
            self._take_up("")
            return
        if tool not in MARKS:
            return
        begins = self.work.panel == "new"
        if tool not in MANY:
            self.plan.tool = ""
        if not begins:
            self.work.panel = "feature"
        sketch = self.work.sketch
        self.work.step(sketch.added(tool, points), sketch.free)

    def _choose(self, number: int) -> None:
        self.work.chosen = number
        if number and self.work.panel not in ("list", "tapes", "new"):
            self.work.panel = "feature"
        self.draw()


def _listed(label: str, items: list[dict[str, Any]]) -> Field:
    return {"kind": "list", "name": "tool", "label": label, "items": items}


def tools() -> list[Any]:
    """What can be drawn, grouped for the plan's own list."""
    groups: list[Any] = [["", [["", _("Choose and move")], ["measure", _("Measure")]]]]
    for shape, label in GROUPS.items():
        kinds = [kind for kind in MARKS.values() if kind.geometry[0] == shape]
        groups.append([_(label), [[kind.name, _(kind.label)] for kind in kinds]])
    return groups


LAYOUT = f"""
:host {{
  display: grid !important; box-sizing: border-box; gap: 0 14px; padding: 8px 12px 8px;
  height: 100%; width: 100%; overflow: hidden; background: {theme.PAPER};
  grid-template-columns: minmax(0, 1fr) 372px; grid-template-rows: minmax(0, 1fr);
}}
.plan {{ min-height: 0; }}
.forms {{ min-height: 0; height: 100%; overflow: hidden auto; }}
@media (max-width: {theme.NARROW - 1}px) {{
  :host {{ display: flex !important; flex-direction: column; overflow: hidden auto; padding: 6px; }}
  .plan {{ height: 62vh !important; flex: none; }}
  .forms {{ height: auto; flex: none; border-top: 3px solid {theme.FAINT}; }}
}}
"""
