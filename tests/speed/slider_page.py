"""The two pages that the slider's benchmark drives: Weigh on the demo, and a bare image.

Served in a process of their own: python -m tests.speed.slider_page PORT
"""

import sys

import numpy as np
import panel as pn
from bokeh.models import ColumnDataSource
from bokeh.plotting import figure

from dashboard.app import session
from dashboard.keeping.opened import Opened
from dashboard.pages.sliders import Slider, Sliders
from tests.model.demo import DEMO

WIDTH, HEIGHT = 560, 490  # px, about what the map has on a screen of 1440 by 900


def bare(shape: tuple[int, int], ready_made: bool = False) -> pn.Column:
    """One image of the map's size and one slider, ours or Panel's, that replaces its data."""
    random = np.random.default_rng(1)
    source = ColumnDataSource(
        {"image": [random.random(shape, np.float32)], "x": [0], "y": [0], "dw": [1], "dh": [1]}
    )
    plot = figure(width=WIDTH, height=HEIGHT, toolbar_location=None)
    plot.image("image", source=source, palette="Cividis256")

    def moved(_id: str, _value: float, _settled: bool) -> None:
        with pn.io.hold():
            source.data = dict(source.data) | {"image": [random.random(shape, np.float32)]}

    if ready_made:
        slider = pn.widgets.FloatSlider(start=0, end=100, value=5, step=0.5, width=300)
        slider.param.watch(lambda event: moved("", event.new, True), "value")
    else:
        slider = Sliders(moved, width=300, sizing_mode="fixed", height=60)
        slider.set([Slider("spacing", "Spacing", 10.0, "10 %")])
    return pn.Column(slider, pn.pane.Bokeh(plot))


if __name__ == "__main__":
    demo = Opened(DEMO)
    shape = demo.study().ground.places.shape
    pn.serve(
        {
            "weigh": lambda: session(demo),
            "bare": lambda: bare(shape),
            "ready-made": lambda: bare(shape, ready_made=True),
        },
        port=int(sys.argv[1]),
        show=False,
    )
