"""A copied figure is the figure that was drawn, with columns and taps of its own."""

import json
import re
from types import SimpleNamespace

import holoviews as hv
import numpy as np
from bokeh.core.serialization import Serializer
from bokeh.document import Document
from bokeh.models import Plot

from dashboard.copies import CopiedDrawing, copied
from dashboard.plots import marks
from dashboard.session import Session


class Land:
    """What a plot is drawn of."""


def bars(right) -> dict:
    edges = {"left": np.zeros(2), "bottom": np.array([0.0, 1.0]), "top": np.array([0.5, 1.5])}
    return {"bars": edges | {"right": np.asarray(right, float), "fill_color": ["#ff0000"] * 2}}


def plot(columns) -> hv.Overlay:
    words = {"x": [0.0], "y": [0.0], "text": ["plum"], "short": ["p"]}
    return marks.bare(
        hv.Overlay([marks.bars(columns["bars"], "bars"), marks.fitted(marks.words(words, "names"))])
    )


def written(model) -> str:
    """A model as it is sent, its models numbered in their order."""
    text = json.dumps(Serializer(deferred=False).serialize(model).content, default=str)
    numbers: dict[str, str] = {}
    return re.sub(r'"p\d+"', lambda found: numbers.setdefault(found[0], str(len(numbers))), text)


def figure_of(drawing: CopiedDrawing):
    return drawing.view.get_root().select_one({"type": Plot})


def drawing(land: Land, right, asked: list, like=()) -> CopiedDrawing:
    columns = bars(right)

    def draw() -> hv.Overlay:
        asked.append(right)
        return plot(columns)

    return CopiedDrawing("test", draw, columns, land, like)


def test_a_copy_is_sent_as_the_figure_would_be() -> None:
    figure = hv.renderer("bokeh").get_plot(plot(bars([1, 2])), doc=Document()).state
    copies = copied(figure.references())
    assert written(copies[figure]) == written(figure)
    assert not set(copies.values()) & figure.references()
    assert copies[figure].references() == set(copies.values())


def test_a_copy_changes_alone() -> None:
    land, asked = Land(), []
    one, other = drawing(land, [1, 2], asked), drawing(land, [3, 4], asked)
    figures = figure_of(one), figure_of(other)
    one.write(bars([7, 8]))
    one.adjust("x_range", start=-3, end=9)
    right = [list(figure.renderers[0].data_source.data["right"]) for figure in figures]
    assert right == [[7, 8], [3, 4]]
    assert [figure.x_range.end == 9 for figure in figures] == [True, False]


def test_a_plot_is_drawn_once_for_a_land_and_again_for_another_look_or_land() -> None:
    land, asked = Land(), []
    for like in ((), (), ("feet",)):
        figure_of(drawing(land, [1, 2], asked, like))
    assert len(asked) == 2
    figure_of(drawing(Land(), [1, 2], asked))
    assert len(asked) == 3


def test_a_tap_inside_the_frame_is_passed_on_to_its_own_drawing() -> None:
    land, taps = Land(), []
    one = drawing(land, [1, 2], [])
    drawing(land, [1, 2], []).on_tap("bars", lambda *at: taps.append(("other", at)))
    one.on_tap("bars", lambda *at: taps.append(("one", at)))
    figure = figure_of(one)
    figure.x_range.update(start=0, end=2)
    figure.y_range.update(start=0, end=2)
    for x in (1.0, 5.0):
        figure._trigger_event(SimpleNamespace(event_name="tap", model=figure, x=x, y=1.0))
    assert taps == [("one", (1.0, 1.0))]


def test_two_sessions_of_a_land_show_each_its_own_place(study) -> None:
    from dashboard.pages.weigh import Weigh  # noqa: PLC0415 - it takes long, and only this wants it

    first = Weigh(Session(study))
    source = lambda page: next(  # noqa: E731 - one line
        model
        for model in page.ground.drawing.view.get_root().references()
        if getattr(model, "name", "") == "map chosen"
    )
    shown = source(first)
    before = list(shown.data["x"])
    first.act(lambda: setattr(study, "place", study.ground.places.cells + 1))
    assert list(shown.data["x"]) != before
    assert list(source(first).data["x"]) == list(shown.data["x"])
