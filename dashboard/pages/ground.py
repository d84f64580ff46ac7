"""The map's part of the page: what it shows, and a tap that chooses the place."""

from collections.abc import Callable

import numpy as np
import panel as pn
import panel_material_ui as pmui

from dashboard import theme
from dashboard.live import Drawing, Layers
from dashboard.plots import site_map
from model.results import Layer
from model.study import Study

SMALL = {"size": "small", "margin": (4, 4, 0, 4), "sizing_mode": "stretch_width"}


class GroundMap:
    """The site from above, with a choice of what it shows."""

    def __init__(self, study: Study, tapped: Callable[[float, float], None]) -> None:
        self.study = study
        columns = map_layers(study, study.map_layer())
        places = study.ground.places
        element = site_map.plot(columns, study.site.features, places)
        self.drawing = Drawing(
            "map",
            element,
            columns,
            sizing_mode="stretch_both",
            min_height=200,
            stylesheets=[theme.AS_IS],
        )
        self.drawing.on_tap("score", tapped)
        self.layer = pmui.Select(
            label="On the map", options=layer_options(study), value=study.layer, **SMALL
        )
        self.option = pmui.Select(
            label="Option", options=option_options(study), value=study.option, **SMALL
        )
        self.place = pmui.Select(label="Place", **SMALL)
        self.moment = MomentSliders(study)
        self.view = pn.Column(
            pn.Row(self.layer, self.option, self.place, sizing_mode="stretch_width", margin=0),
            self.moment.view,
            self.drawing.view,
            sizing_mode="stretch_both",
            css_classes=["map"],
            margin=0,
        )

    def show(self) -> None:
        """Show the study's layer as it is now."""
        study, places = self.study, self.study.ground.places
        shown = study.map_layer()
        self.drawing.write(map_layers(study, shown))
        self.moment.show(shown.label)
        options = {
            f"{number + 1}  {name}": places.cells + number
            for number, name in enumerate(places.spots)
        }
        if study.place < places.cells:
            options = {places.name(study.place): study.place, **options}
        if self.place.options != options:
            self.place.options = options
        self.place.value, self.layer.value, self.option.value = (
            study.place,
            study.layer,
            study.option,
        )


class MomentSliders:
    """Day and hour of the shadows, on the page only while the map shows them."""

    def __init__(self, study: Study) -> None:
        self.study = study
        wide = {"margin": (0, 14), "size": "small", "sizing_mode": "stretch_width"}
        self.day = pmui.IntSlider(label="Day of the year", start=1, end=365, **wide)
        self.hour = pmui.FloatSlider(label="Hour", start=0, end=24, step=0.25, **wide)
        self.said = pn.pane.HTML("", margin=(0, 14))
        self.view = pn.Column(
            pn.Row(self.day, self.hour, sizing_mode="stretch_width", margin=0),
            self.said,
            sizing_mode="stretch_width",
            margin=0,
            visible=False,
        )

    def show(self, label: str) -> None:
        """Show the study's day and hour, in words too."""
        self.view.visible = self.study.layer == "shade"
        self.day.value, self.hour.value = self.study.day, self.study.hour
        self.said.object = label


def layer_options(study: Study) -> dict[str, str]:
    """What the map can show, by the words for it."""
    return {
        "Best by place": "best",
        "Option's score": "option",
        "Sun and shadow at an hour": "shade",
        **{factor.label: factor.name for factor in study.factors},
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


def map_layers(study: Study, shown: Layer) -> Layers:
    """Columns of the map for the study as it is now, showing a layer of it."""
    numbers = np.where(shown.ruled_out, study.ruling.first[study.option], -1)
    places, lettered = study.ground.places, study.layer == "best"
    reasons = study.ruling.reasons
    return site_map.layers(shown, numbers, reasons, places, study.place, lettered)
