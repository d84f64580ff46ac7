"""What is looked at through the years: which trees, how they grow, from where, and when."""

from collections.abc import Callable
from datetime import date, timedelta
from typing import Any

import panel as pn
import panel_material_ui as pmui

from dashboard.pages.sliders import Slider, Sliders
from dashboard.session import Session
from model.growth import GROWTHS, Shown, Stand, chosen, leaders, placed
from model.growth.eyes import Eye, bearing_of_trees, standing_eye, view_eyes
from model.language import _, dated
from model.shadows import YEAR, SunAt
from model.survey.faults import SurveyFaults

TREES = ("placement", "chosen", "leaders")
HOUSE, CHOSEN, TAPPED = "house", "chosen", "tapped"
FIELD = {"size": "small", "margin": (8, 4, 0, 4), "sizing_mode": "stretch_width"}


def trees_shown(session: Session, which: str) -> tuple[tuple[Shown, ...], str]:
    """The trees of a choice, and a sentence where the plan could not be read."""
    study = session.study
    if which == "placement":
        try:
            return placed(study, session.folder), ""
        except (SurveyFaults, ValueError) as error:
            return (), _("The plan is not shown, it has faults: {why}").format(why=error)
    return (leaders(study) if which == "leaders" else chosen(study)), ""


class Choices:
    """The widgets of the choices. `told(name)` is called with trees, growth, eye or moment."""

    def __init__(self, session: Session, told: Callable[[str], None]) -> None:
        self.session, self.study, self._told = session, session.study, told
        kept = session.memory.get("years", {})
        first = "placement" if trees_shown(session, "placement")[0] else "chosen"
        self.trees, self.growth = str(kept.get("trees", first)), int(kept.get("growth", 1))
        self.at: tuple[float, float] | None = kept.get("at")
        self.seen_from = str(kept.get("eye", self._first_eye()))
        self.bearing: float | None = kept.get("bearing")
        self.sun: SunAt | None = None
        self._showing = False
        self.tree_choice = pmui.Select(label=_("Trees"), **FIELD)
        self.growth_choice = pmui.Select(label=_("Growth"), **FIELD)
        self.eye_choice = pmui.Select(label=_("Seen from"), **FIELD)
        self.moment = Sliders(self._slid, css_classes=["moment"])
        self.view = pn.Column(
            pn.Row(self.tree_choice, self.growth_choice, sizing_mode="stretch_width", margin=0),
            pn.Row(self.eye_choice, sizing_mode="stretch_width", margin=0),
            self.moment,
            sizing_mode="stretch_width",
            margin=0,
        )
        for widget, name in (
            (self.tree_choice, "trees"),
            (self.growth_choice, "growth"),
            (self.eye_choice, "eye"),
        ):
            widget.param.watch(lambda event, name=name: self._picked(name, event.new), "value")

    def kept(self) -> dict[str, Any]:
        """The choices as plain values."""
        return {
            "trees": self.trees,
            "growth": self.growth,
            "eye": self.seen_from,
            "at": self.at,
            "bearing": self.bearing,
        }

    def _first_eye(self) -> str:
        views = view_eyes(self.study)
        return views[0].label if views else HOUSE if self.study.site.hub else CHOSEN

    def eyes(self) -> dict[str, str]:
        """Where one can look from, by the words for it."""
        found = {view.label: view.label for view in view_eyes(self.study)}
        if self.study.site.hub is not None:
            found[_("the house door")] = HOUSE
        found[self._place_words()] = CHOSEN
        if self.at is not None:
            found[_("where you tapped")] = TAPPED
        return found

    def eye(self, stand: Stand) -> Eye:
        """The eye of the side elevation."""
        for view in view_eyes(self.study):
            if view.label == self.seen_from:
                return view
        places, place = self.study.ground.places, self.study.place
        label, x, y = self._place_words(), float(places.x[place]), float(places.y[place])
        if self.seen_from == HOUSE and self.study.site.hub is not None:
            label, (x, y) = _("the house door"), self.study.site.hub
        elif self.seen_from == TAPPED and self.at is not None:
            label, (x, y) = _("where you tapped"), self.at
        if self.bearing is None:
            self.bearing = round(bearing_of_trees(stand, x, y))
        return standing_eye(self.study, label, x, y, self.bearing)

    def _place_words(self) -> str:
        name = self.study.ground.places.short_name(self.study.place)
        return _("the chosen place, {name}").format(name=name)

    def stand_at(self, x: float, y: float) -> None:
        """Look from a tapped place towards the trees."""
        self.at, self.seen_from, self.bearing = (x, y), TAPPED, None
        self._told("eye")
        self.show()

    def light_words(self) -> str:
        """The moment of the shade in words."""
        if self.sun is None:
            return ""
        if self.sun.elevation <= 0:
            return _("{when}: the sun is down.").format(when=self.sun.when)
        return _("Shade of {when}; the sun stands {height:.0f} degrees high.").format(
            when=self.sun.when, height=self.sun.elevation
        )

    def show(self) -> None:
        """Show the choices in their widgets."""
        self._showing = True
        try:
            with pn.io.hold():
                self._fill(self.tree_choice, self._tree_options(), self.trees)
                self._fill(self.growth_choice, growths(), self.growth)
                self._fill(self.eye_choice, self.eyes(), self.seen_from)
                self.moment.set(self._rows())
        finally:
            self._showing = False

    def _fill(self, widget: Any, options: dict[str, Any], value: Any) -> None:
        if widget.options != options:
            widget.options = options
        widget.value = value

    def _tree_options(self) -> dict[str, str]:
        study = self.study
        name = study.ground.places.short_name(study.place)
        one = f"{study.options[study.option].cultivar}, {name}"
        return {
            _("The plan"): "placement",
            _("Chosen: {tree}").format(tree=one): "chosen",
            _("The best at every peg"): "leaders",
        }

    def _rows(self) -> list[Slider]:
        study = self.study
        when = date(YEAR, 1, 1) + timedelta(days=study.day - 1)
        hour = f"{int(study.hour):02d}:{round(study.hour % 1 * 60):02d}"
        rows = [
            Slider("day", _("Day"), study.day, dated(when), 1, 365, 1),
            Slider("hour", _("Hour"), study.hour, hour, 4, 22, 0.25),
        ]
        if self.seen_from in (HOUSE, CHOSEN, TAPPED):
            bearing = self.bearing or 0.0
            share = _("{bearing:.0f} degrees").format(bearing=bearing)
            rows.append(Slider("bearing", _("Looking towards"), bearing, share, 0, 360, 5))
        return rows

    def _slid(self, name: str, value: float, settled: bool) -> None:  # noqa: ARG002 -- as sliders tell
        if name == "bearing":
            self.bearing = value
        else:
            self.study.param.update(**{name: int(value) if name == "day" else value})
        self.moment.set(self._rows())
        self._told("eye" if name == "bearing" else "moment")

    def _picked(self, name: str, value: Any) -> None:
        attribute = {"trees": "trees", "growth": "growth", "eye": "seen_from"}[name]
        if self._showing or value is None or value == getattr(self, attribute):
            return
        setattr(self, attribute, value)
        if name == "eye":
            self.bearing = None
        self._told(name)
        self.show()


def growths() -> dict[str, int]:
    """How strongly the trees grow: the low, typical and high sizes of the catalogue."""
    return {_(name): number for number, name in enumerate(GROWTHS)}
