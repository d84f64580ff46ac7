"""What is not drawn: the site's name and place, its soil, heights and weather."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from dashboard.pages import survey_form as form
from dashboard.pages.survey_form import Field
from dashboard.pages.survey_months import filled, is_full, months_fields, months_of, months_text
from dashboard.pages.survey_work import Work
from model.language import _
from model.survey import Plane, SpotHeights, SurveyFaults
from model.survey import site_changes as change
from model.survey.settings import SETTINGS
from model.survey.site import Site

PARTS = {"site": "", "soil": "soil", "slope": "heights"}


class SitePanel:
    """Forms for the tables of site.toml; what is wrong is said beside the field and not taken."""

    path = "site"
    label = "Site"
    key = "site"

    def __init__(self, work: Work) -> None:
        self.work = work
        self.typed: dict[str, str] = {}
        self.wrong: dict[str, str] = {}
        self.cells: list[list[str]] | None = None

    @property
    def site(self) -> Site:
        """The site as drawn."""
        return self.work.sketch.site

    def fields(self) -> list[Field]:
        """The forms."""
        general = [
            self._field("site", one.name, change.general_of(self.site)) for one in SETTINGS[""]
        ]
        soil = [self._field("soil", one.name, self._soil()) for one in SETTINGS["soil"]]
        return [
            form.heading(_("The site")),
            form.note(_("Metres are east and north of the origin, a peg that can be found again.")),
            *general,
            form.subheading(_("Soil in general")),
            *soil[:4],
            {"kind": "fold", "label": _("How far the figures may be off"), "fields": soil[4:]},
            *self.heights(),
            *self.weather(),
        ]

    def heights(self) -> list[Field]:
        """One slope, or heights pasted."""
        heights = self.site.heights
        slope = vars(heights) if isinstance(heights, Plane) else {}
        said = _("No heights are known: the ground is taken as level.")
        if isinstance(heights, Plane):
            said = _("One slope for the whole site.")
        elif isinstance(heights, SpotHeights):
            said = _("{count} measured heights are in use.").format(count=len(heights.x))
        elif heights is not None:
            said = _("Measured heights on a grid are in use.")
        return [
            form.subheading(_("Lie of the land")),
            form.note(said),
            *(self._field("slope", one.name, slope) for one in SETTINGS["heights"]),
            form.area(
                "spots", _("Or paste measured heights"), self.typed.get("spots", ""), rows=3,
                example="0, 0, 60.0\n20, 0, 60.8\n0, 20, 59.1", fault=self.wrong.get("spots", ""),
                help=_("east, north, height above sea level [m]; one spot a line, three at least"),
            ),
        ]  # fmt: skip

    def weather(self) -> list[Field]:
        """Monthly normals, unless finer weather is in use."""
        weather = self.site.weather
        shown = [form.subheading(_("Weather"))]
        if weather is not None and weather.kind != "monthly":
            kinds = {"hourly": _("hourly"), "daily": _("daily")}
            said = _("A record of {kind} weather is in use; normals put here take its place.")
            shown.append(form.note(said.format(kind=kinds[weather.kind])))
        cells = self.cells if self.cells is not None else months_of(self.site)
        fault = self.wrong.get("months", "")
        return shown + months_fields(cells, self.typed.get("months", ""), fault)

    def _soil(self) -> dict[str, Any]:
        off = {f"{name}_plus_minus": value for name, value in self.site.soil_plus_minus.items()}
        return vars(self.site.soil) | off

    def _field(self, part: str, name: str, values: dict[str, Any]) -> Field:
        attribute = change.attribute_of(PARTS[part], name)
        key = f"{part}-{name}"
        value = self.typed.get(key, values.get(name))
        if attribute is None:
            raise ValueError(f"{PARTS[part]} has no {name}")
        return form.attribute_field(attribute, value, self.wrong.get(key, ""), f"{part}-")

    def told(self, name: str, value: Any) -> None:
        """Take what was filled in."""
        part, _dash, field = name.partition("-")
        if name == "month":
            self._cell(value)
        elif name == "months":
            self._take("months", str(value), lambda text: change.with_months(self.site, text))
        elif name == "spots" and str(value).strip():
            self._take("spots", str(value), lambda text: change.with_spot_heights(self.site, text))
        elif part in PARTS and change.attribute_of(PARTS[part], field):
            self.typed[name] = str(value)
            self._settings(part)
        self.work.told()

    def _settings(self, part: str) -> None:
        """Take the whole of a form as typed so far, once all of it is right."""
        keys = [key for key in self.typed if key.startswith(f"{part}-")]
        raw: dict[str, Any] = {key.partition("-")[2]: self.typed[key] for key in keys}
        build: dict[str, Callable[[Site, Any], Site]] = {
            "site": change.with_general, "soil": change.with_soil, "slope": self._slope,
        }  # fmt: skip
        for key in list(self.wrong):
            if key.startswith(f"{part}-"):
                self.wrong.pop(key)
        try:
            site = build[part](self.site, raw)
        except SurveyFaults as error:
            waiting = part == "slope" and not all(raw.get(one.name) for one in SETTINGS["heights"])
            for fault in error.faults:
                if not waiting or raw.get(fault.field):
                    self.wrong[f"{part}-{fault.field}"] = (
                        f"expected {fault.expected}, mend by {fault.mend}"
                    )
            return
        for key in keys:
            self.typed.pop(key)
        self._step(site)

    def _slope(self, site: Site, raw: dict[str, Any]) -> Site:
        known = vars(site.heights) if isinstance(site.heights, Plane) else {}
        return change.with_slope(site, {**known, **raw})

    def _cell(self, value: Any) -> None:
        cells = self.cells if self.cells is not None else months_of(self.site)
        self.cells = filled(cells, value)
        if self.cells != cells and is_full(self.cells):
            text = months_text(self.cells)
            if self._take("months", text, lambda one: change.with_months(self.site, one)):
                self.cells = None

    def _take(self, key: str, text: str, build: Callable[[str], Site]) -> bool:
        """Take a pasted text; whether it was right."""
        self.wrong.pop(key, None)
        if not text.strip():
            self.typed.pop(key, None)
            return False
        try:
            site = build(text)
        except SurveyFaults as error:
            self.wrong[key], self.typed[key] = str(error), text
            return False
        self.typed.pop(key, None)
        self.cells = None
        self._step(site)
        return True

    def _step(self, site: Site) -> None:
        self.work.step(replace(self.work.sketch, site=site))
