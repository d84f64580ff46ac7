"""The map's part of the page: what it shows, and a tap that chooses the place."""

from collections.abc import Callable
from html import escape

import numpy as np
import panel as pn
import panel_material_ui as pmui

from dashboard import theme
from dashboard.copies import CopiedDrawing
from dashboard.live import Layers
from dashboard.pages.map_keys import MapKeys
from dashboard.plots import site_map, survey_marks
from dashboard.session import Session
from model.comparison import Choice
from model.language import _
from model.results import Layer
from model.study import Study

SMALL = {"size": "small", "margin": (6, 4, 0, 4), "sizing_mode": "stretch_width"}
NEAR = 1.5  # m; what lies no farther from the chosen place is named under the map


class GroundMap:
    """The site from above, with a choice of what it shows."""

    def __init__(
        self,
        session: Session,
        tapped: Callable[[float, float], None],
        moved: Callable[[int, int], None],
    ) -> None:
        self.session, self.study = session, session.study
        self._near: tuple[int, str] = (-1, "")
        study, places = self.study, self.study.ground.places
        columns = map_layers(study, study.map_layer())
        self.drawing = CopiedDrawing(
            "map",
            lambda: site_map.plot(columns, study.site.features, places, session.feet),
            columns,
            land=study.ground,
            like=(session.feet,),
            sizing_mode="stretch_both",
            min_height=200,
            stylesheets=[theme.AS_IS],
        )
        self.drawing.on_tap("score", tapped)
        self.layer = pmui.Select(
            label=_("On the map"), options=layer_options(study), value=study.layer, **SMALL
        )
        self.option = pmui.Select(
            label=_("Option"), options=option_options(study), value=study.option, **SMALL
        )
        self.place = pmui.Select(label=_("Place"), css_classes=["place"], **SMALL)
        self.keys = MapKeys(moved, label=_("Move the place on the map with the arrow keys"))
        self.beside = pmui.Toggle(
            label=_("Compare with"), size="small", variant="outlined", margin=(6, 4, 0, 2),
            sx={"height": 36, "whiteSpace": "nowrap", "textTransform": "none", "color": theme.INK},
        )  # fmt: skip
        self.moment = MomentSliders(study)
        self.near = pn.pane.HTML(
            "", stylesheets=[NEAR_LOOK], margin=0, css_classes=["near"], sizing_mode="stretch_width"
        )
        choices = (self.layer, self.option, self.place)
        wide = {"sizing_mode": "stretch_width", "margin": 0}
        foot = pn.Row(self.near, self.keys, self.beside, stylesheets=[FOOT], **wide)
        self.view = pn.Column(
            pn.Row(*choices, css_classes=["choices"], stylesheets=[CHOICES], **wide),
            self.moment.view,
            self.drawing.view,
            foot,
            sizing_mode="stretch_both",
            css_classes=["map"],
            margin=0,
        )  # fmt: skip

    def show(self, other: Choice, picking: bool = False) -> None:
        """Show the study's layer as it is now, and the place that stands beside the chosen one."""
        study = self.study
        shown = study.map_layer()
        self.drawing.write(map_layers(study, shown, other.place))
        self.moment.show(shown.label)
        self.place.options = place_options(study, study.place)
        self.place.value, self.layer.value, self.option.value = (
            study.place,
            study.layer,
            study.option,
        )
        self.beside.value = picking
        said = self.near_said()
        if picking:
            said = _("Now tap another place on the map, or another tree in the ranking.")
        self.near.object = f"<p class='{'ask' if picking else ''}'>{escape(said)}</p>"

    def near_said(self) -> str:
        """What lies at the chosen place, asked again only when another is chosen."""
        if self._near[0] != self.study.place:
            self._near = self.study.place, near_words(self.study)
        return self._near[1]


class MomentSliders:
    """Day and hour of the shadows, on the page only while the map shows them."""

    def __init__(self, study: Study) -> None:
        self.study = study
        wide = {"margin": (0, 14), "size": "small", "sizing_mode": "stretch_width"}
        self.day = pmui.IntSlider(label=_("Day of the year"), start=1, end=365, **wide)
        self.hour = pmui.FloatSlider(label=_("Hour"), start=0, end=24, step=0.25, **wide)
        self.said = pn.pane.HTML("", margin=(0, 14))
        self.view = pn.Column(
            pn.Spacer(width=0, height=0), sizing_mode="stretch_width", margin=0, visible=False
        )

    def show(self, label: str) -> None:
        """Show the study's day and hour, in words too."""
        self.view.visible = self.study.layer == "shade"
        if self.view.visible and len(self.view) == 1:  # sent when they are first wanted
            sliders = pn.Row(self.day, self.hour, sizing_mode="stretch_width", margin=0)
            self.view.objects = [sliders, self.said]
        self.day.value, self.hour.value = self.study.day, self.study.hour
        self.said.object = label


def layer_options(study: Study) -> dict[str, str]:
    """What the map can show, by the words for it."""
    return {
        _("Best by place"): "best",
        _("Option's score"): "option",
        _("Sun and shadow at an hour"): "shade",
        **{_(factor.label): factor.name for factor in study.factors},
    }


def option_options(study: Study) -> dict[str, int]:
    """The short list, each option with its letter."""
    return {
        f"{letter}  {option.label}": number
        for number, (letter, option) in enumerate(zip(letters(study), study.options, strict=True))
    }


def letters(study: Study) -> list[str]:
    """Letters of the options."""
    return [site_map.theme.letter(number) for number in range(len(study.options))]


def place_options(study: Study, place: int) -> dict[str, int]:
    """The pegs by their numbers, after a place that is none of them."""
    places = study.ground.places
    options = {
        f"{number + 1}  {name}": places.cells + number for number, name in enumerate(places.spots)
    }
    return options if place >= places.cells else {places.name(place): place, **options}


def near_words(study: Study) -> str:
    """What the survey has at the chosen place, by name."""
    places = study.ground.places
    at = float(places.x[study.place]), float(places.y[study.place])
    names = survey_marks.names_near(study.site.features, at, NEAR)
    if not names:
        return ""
    return _("At or beside this place: {names}.").format(names=", ".join(names))


def map_layers(study: Study, shown: Layer, beside: int = -1) -> Layers:
    """Columns of the map for the study as it is now, showing a layer of it."""
    numbers = np.where(shown.ruled_out, study.ruling.first[study.option], -1)
    places, lettered = study.ground.places, study.layer == "best"
    reasons = study.ruling.reasons
    return site_map.layers(shown, numbers, reasons, places, study.place, lettered, beside)


NEAR_LOOK = f"""
:host {{ font: 12px/1.3 {theme.FONT}; color: {theme.QUIET}; min-height: 17px; }}
p {{ margin: 0 4px; }}
.ask {{ color: {theme.ACCENT}; font-weight: 600; }}
"""
CHOICES = f"""
@media (max-width: {theme.NARROW - 1}px) {{
  :host {{ display: grid !important; grid-template-columns: 1fr 1fr; }}
  .place {{ grid-column: 1 / -1; }}
}}
"""
FOOT = ":host { align-items: center; }"
