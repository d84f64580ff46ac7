"""Columns reach what is already drawn, and only when they changed."""

import holoviews as hv
import numpy as np

from dashboard.live import Drawing, same
from dashboard.plots import marks


def bars(right, colour="#ff0000"):
    return {
        "left": np.zeros(2),
        "right": np.asarray(right, float),
        "bottom": np.array([0.0, 1.0]),
        "top": np.array([0.5, 1.5]),
        "fill_color": [colour] * 2,
    }


def drawing(columns):
    return Drawing("test", marks.bare(hv.Overlay([marks.bars(columns, "bars")])), {"bars": columns})


def rendered(drawn):
    figure = drawn.view.get_root().select_one({"type": hv.plotting.bokeh.util.Plot})
    return figure.renderers[0]


def test_new_columns_replace_the_old_without_a_new_glyph():
    drawn = drawing(bars([1, 2]))
    before = rendered(drawn)
    drawn.write({"bars": bars([3, 4])})
    assert list(before.data_source.data["right"]) == [3, 4]


def test_a_column_named_after_a_property_drives_it():
    glyph = rendered(drawing(bars([1, 2]))).glyph
    assert glyph.fill_color.field == "fill_color"
    assert glyph.right.field == "right"


def test_what_did_not_change_is_not_sent():
    drawn = drawing(bars([1, 2]))
    source = rendered(drawn).data_source
    changes = []
    source.on_change("data", lambda attr, old, new: changes.append((attr, old, new)))
    drawn.write({"bars": bars([1, 2])})
    assert not changes
    drawn.write({"bars": bars([1, 3])})
    assert len(changes) == 1


def test_a_plot_shown_again_shows_the_latest():
    drawn = drawing(bars([1, 2]))
    drawn.write({"bars": bars([5, 6])})
    assert list(rendered(drawn).data_source.data["right"]) == [5, 6]


def test_two_showings_are_both_kept_up_to_date():
    drawn = drawing(bars([1, 2]))
    first, second = rendered(drawn).data_source, rendered(drawn).data_source
    assert first is not second
    drawn.write({"bars": bars([7, 8])})
    assert list(first.data["right"]) == list(second.data["right"]) == [7, 8]


def test_settings_reach_a_figure_drawn_later():
    drawn = drawing(bars([1, 2]))
    drawn.adjust("x_range", start=-3, end=9)
    figure = drawn.view.get_root().select_one({"type": hv.plotting.bokeh.util.Plot})
    assert (figure.x_range.start, figure.x_range.end) == (-3, 9)


def test_not_known_is_the_same_as_not_known():
    assert same(np.array([1.0, np.nan]), np.array([1.0, np.nan]))
    assert not same(np.array([1.0, np.nan]), np.array([1.0, 2.0]))
    assert same([np.ones(2), "a"], [np.ones(2), "a"])
    assert not same(["a"], ["a", "b"])
