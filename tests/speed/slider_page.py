"""The two pages that the slider's benchmark drives: Weigh on the demo, and a bare image.

Served in a process of their own: python -m tests.speed.slider_page PORT
"""

import sys

import numpy as np
import panel as pn
from bokeh.models import ColumnDataSource
from bokeh.plotting import figure

from dashboard.app import session
from dashboard.pages.sliders import Slider, Sliders
from tests.model.demo import DEMO

WIDTH, HEIGHT = 560, 490  # px, about what the map has on a screen of 1440 by 900


def bare(shape: tuple[int, int]) -> pn.Column:
    """One image of the map's size and one slider that replaces its data."""
    random = np.random.default_rng(1)
    source = ColumnDataSource(
        {"image": [random.random(shape, np.float32)], "x": [0], "y": [0], "dw": [1], "dh": [1]}
    )
    plot = figure(width=WIDTH, height=HEIGHT, toolbar_location=None)
    plot.image("image", source=source, palette="Cividis256")

    def moved(_id: str, _value: float, _settled: bool) -> None:
        with pn.io.hold():
            source.data = dict(source.data) | {"image": [random.random(shape, np.float32)]}

    sliders = Sliders(moved, width=300, sizing_mode="fixed", height=60)
    sliders.set([Slider("spacing", "Spacing", 10.0, "10 %")])
    return pn.Column(sliders, pn.pane.Bokeh(plot))


def shape() -> tuple[int, int]:
    """Shape of the demo's map in cells."""
    from model.opening import open_study  # noqa: PLC0415 - only the first call pays for it

    return open_study(DEMO).ground.places.shape


if __name__ == "__main__":
    size = shape()
    pn.serve(
        {"weigh": lambda: session(DEMO), "bare": lambda: bare(size)},
        port=int(sys.argv[1]),
        show=False,
    )
