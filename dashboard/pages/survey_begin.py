"""A new site from nothing in four short steps: name and place, boundary, hub and slope, weather."""

from typing import Any
from zoneinfo import available_timezones

from dashboard.pages import survey_form as form
from dashboard.pages.survey_feature import corners
from dashboard.pages.survey_form import Field
from dashboard.pages.survey_site import SitePanel
from dashboard.pages.survey_work import Work
from model.language import _, marked
from model.survey import SurveyFaults
from model.survey.editing import Sketch
from model.survey.measuring import area
from model.survey.settings import SETTINGS
from model.survey.site_changes import new_site

STEPS = (marked("Name and place"), marked("Boundary"), marked("Hub and slope"), marked("Weather"))
PLANS = (
    "order.csv",
    "placement.csv",
    "observations.csv",
    "background.toml",
    "background.png",
    "background.jpg",
)
LONGEST_SIDE = 3000  # m
EMPTY = marked(
    "The plan starts empty; order, placing, observations and picture of the old land are put away. "
    "Undo brings back what is drawn now, the way back in Settings brings back all."
)
ORIGIN = marked("Take as origin a peg or corner that can be found again; its place is on any map.")
NORMALS = marked("Take the normals that the weather service publishes for the nearest station.")
SPREAD = marked("The day-to-day spread (sd), if not known: 3 to 4 by the sea, 5 to 7 inland.")


class BeginPanel:
    """Four steps, each of which can be come back to."""

    path = "new"
    label = "New site"

    def __init__(self, work: Work) -> None:
        self.work = work
        self.site = SitePanel(work)
        self.number = 1 if work.new_site else 0
        self.typed: dict[str, str] = {"timezone": "Europe/London", "grid_m": "2"}
        self.wrong: dict[str, str] = {}
        self.outline, self.sides = "", ["", ""]
        self.wanted: str | None = None  # what the plan should now draw; "" to draw nothing more

    @property
    def key(self) -> str:
        """Which form it is."""
        return f"new-{self.number}"

    def fields(self) -> list[Field]:
        """The step one is at."""
        done = _("Step {number} of 4: {name}").format(
            number=self.number + 1, name=_(STEPS[self.number])
        )
        step = (self._place, self._boundary, self._hub, self._weather)[self.number]
        return [form.heading(_("A new site")), form.subheading(done), *step()]

    def _place(self) -> list[Field]:
        zones = sorted(available_timezones())
        fields = []
        for attribute in SETTINGS[""]:
            field = form.attribute_field(
                attribute, self.typed.get(attribute.name, ""), self.wrong.get(attribute.name, "")
            )
            fields.append({**field, "suggestions": zones if attribute.name == "timezone" else []})
        return [
            form.note(_(EMPTY)),
            form.note(_(ORIGIN), "help"),
            *fields,
            form.buttons("act", form.main_button("begin", _("Begin"))),
        ]  # fmt: skip

    def _boundary(self) -> list[Field]:
        drawn = self.work.sketch.of_kind("boundary")
        if drawn:
            size = self.work.session.shown(f"{area(drawn[0].points):.0f} m²")
            state = form.note(_("The boundary is drawn: {size}.").format(size=size))
        else:
            state = form.note(_("Tap each corner of the land on the plan, then Finish."))
        help_ = _("metres; its south-west corner is the origin")
        wide = {
            "kind": "number",
            "label": _("East to west [m]"),
            "value": self.sides[0],
            "help": help_,
        }
        deep = {"kind": "number", "label": _("South to north [m]"), "value": self.sides[1]}
        return [
            state,
            form.buttons("act", {"id": "draw-boundary", "label": _("Draw it on the plan")}),
            form.subheading(_("Or a rectangle")),
            {**wide, "name": "wide", "fault": self.wrong.get("wide", "")},
            {**deep, "name": "deep"},
            form.buttons("act", ("rectangle", _("Make the rectangle"))),
            form.area("outline", _("Or its corners: east, north [m]"), self.outline, rows=4,
                      example="0, 0\n60, 0\n60, 40\n0, 40", fault=self.wrong.get("outline", "")),
            self._ways(not drawn),
        ]  # fmt: skip

    def _hub(self) -> list[Field]:
        hub = self.work.sketch.of_kind("hub")
        state = _(
            "The hub is where one sets out from with tools, mostly the house. Tap it on the plan."
        )
        if hub:
            x, y = hub[0].points[0]
            state = _("The hub stands at {x}, {y}. Tap again to move it.").format(
                x=form.plain(x), y=form.plain(y)
            )
        typed = {"kind": "text", "name": "hub", "label": _("Or type it: east, north [m]")}
        value = ", ".join(form.plain(one) for one in hub[0].points[0]) if hub else ""
        return [
            form.note(state),
            form.buttons("act", {"id": "draw-hub", "label": _("Tap the hub on the plan")}),
            {**typed, "value": value, "fault": self.wrong.get("hub", "")},
            *self.site.heights()[:-1],
            self._ways(not hub),
        ]  # fmt: skip

    def _weather(self) -> list[Field]:
        judge = form.main_button("judge", _("Judge this survey"))
        return [
            form.note(_(NORMALS)),
            form.note(_(SPREAD), "help"),
            *self.site.weather()[1:],
            form.buttons("act", ("back", _("Back")), judge),
            form.note(_("Then draw what stands there, and pegs where a tree could go.")),
        ]  # fmt: skip

    def _ways(self, wait: bool) -> Field:
        back = ("back", _("Back"))
        label = _("Next") if not wait else _("Next (draw it first)")
        return form.buttons("act", back, form.main_button("next", label, wait))

    def told(self, name: str, value: Any) -> None:
        """Take what was filled in or pressed."""
        if name == "act":
            self._pressed(str(value))
        elif name in ("hub", "outline"):
            self._typed(name, str(value))
        elif name in ("wide", "deep"):
            self.sides[name == "deep"] = str(value).strip()
        elif self.number == 0:
            self.typed[name] = str(value)
        else:
            self.site.told(name, value)
            return
        self.work.told()

    def _pressed(self, act: str) -> None:
        steps = {"back": -1, "next": 1}
        if act == "begin":
            self._begin()
        elif act in steps:
            self.number = min(max(self.number + steps[act], 0), len(STEPS) - 1)
            self.wanted = self._missing()
        elif act in ("draw-boundary", "draw-hub"):
            self.wanted = act.removeprefix("draw-")
        elif act == "rectangle":
            self._rectangle()
        elif act == "judge":
            self.work.judge()

    def _missing(self) -> str:
        """What this step asks for and the plan does not show yet."""
        asked = {1: "boundary", 2: "hub"}.get(self.number, "")
        return "" if self.work.sketch.of_kind(asked) else asked

    def _begin(self) -> None:
        """An empty plan at the place typed; what was planned on other land goes."""
        try:
            site = new_site({"latitude": "", "longitude": "", "name": "", **self.typed})
        except SurveyFaults as error:
            said = _("expected {expected}, mend by {mend}")
            self.wrong = {
                one.field: said.format(expected=one.expected, mend=one.mend) for one in error.faults
            }
            return
        self.wrong = {}
        if self.work.session.copy is not None:
            for name in PLANS:
                self.work.session.copy.remove(name)
        self.number, self.wanted, self.work.new_site = 1, "boundary", True
        self.work.step(Sketch(site), 0)

    def _rectangle(self) -> None:
        try:
            wide, deep = (float(side) for side in self.sides)
        except ValueError:
            wide = deep = 0.0
        if not (1 <= wide <= LONGEST_SIDE and 1 <= deep <= LONGEST_SIDE):
            self.wrong["wide"] = _("expected two lengths from 1 to 3000 m")
            return
        self.wrong.pop("wide", None)
        self._bounded(((0.0, 0.0), (wide, 0.0), (wide, deep), (0.0, deep)))

    def _typed(self, name: str, text: str) -> None:
        self.wrong.pop(name, None)
        if name == "outline":
            self.outline = text
        if not text.strip():
            return
        try:
            points = corners(text)
        except ValueError as error:
            self.wrong[name] = str(error)
            return
        if name == "hub":
            self.wanted = ""
            self.work.step(self.work.sketch.added("hub", points[:1]))
        elif len(points) < 3:
            few = _("found {count} corners, expected three or more")
            self.wrong[name] = few.format(count=len(points))
        else:
            self._bounded(points)

    def _bounded(self, points: tuple[tuple[float, float], ...]) -> None:
        sketch = self.work.sketch
        for mark in sketch.of_kind("boundary"):
            sketch = sketch.removed(mark.id)
        self.wanted = ""
        self.work.step(sketch.added("boundary", points))
