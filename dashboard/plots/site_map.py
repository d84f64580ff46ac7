"""The site from above: a layer of scores under the survey, with pegs and the chosen place."""

from collections.abc import Iterable, Sequence
from typing import Any

import holoviews as hv
import numpy as np
from bokeh.models import CustomJS, LinearColorMapper, Node, Range1d
from bokeh.models.annotations import ColorBar, Label, ScaleBar
from bokeh.models.annotations.dimensional import ImperialLength, MetricLength

from dashboard import theme
from dashboard.live import Layers
from dashboard.plots import hatching, marks, survey_marks

FEET = 3.28084  # in a metre
FEET_TICKS: list[float] = [1, 2, 5, 10, 20, 50, 100, 200, 500]  # lengths of the scale bar
LATTICE = 9  # letters along the longer side of the map
CLEAR = 4  # cells round a peg that are kept free of them
LETTERS = {"text_color": theme.INK, "text_align": "center", "text_font_style": "bold"}
PLATE = {
    "background_fill_color": theme.PAPER,
    "background_fill_alpha": 0.7,
    "border_radius": 3,
    "padding": 1,
}

HATCH = {
    "fill_color": "#eceff0",
    "fill_alpha": 0.8,
    "hatch_pattern": "right_diagonal_line",
    "hatch_color": theme.QUIET,
    "hatch_weight": 1,
    "hatch_scale": 9,
}
RING = {"marker": "circle", "line_color": theme.ACCENT, "line_width": 4}
CHOSEN = {"text_color": theme.ACCENT}
BESIDE = {"marker": "circle", "line_color": theme.INK, "line_width": 3, "line_dash": "4 3"}

EQUAL_SCALE = """
const w = fig.inner_width, h = fig.inner_height
if (!(w > 0 && h > 0)) return
const s = 1.03 * Math.max(width / w, height / h)
fig.x_range.setv({start: x - s * w / 2, end: x + s * w / 2,
                  reset_start: x - s * w / 2, reset_end: x + s * w / 2})
fig.y_range.setv({start: y - s * h / 2, end: y + s * h / 2,
                  reset_start: y - s * h / 2, reset_end: y + s * h / 2})
if (across !== fig.x_range) {
  across.setv({start: feet * fig.x_range.start, end: feet * fig.x_range.end})
}
"""


def lattice(places: Any) -> np.ndarray:
    """Cells that carry the letter of their leader: a coarse lattice over the site (cell,)."""
    ny, nx = places.shape
    step = max(1, round(max(ny, nx) / LATTICE))
    rows, columns = np.mgrid[step // 2 : ny : step, step // 2 : nx : step]
    cells = (rows * nx + columns).ravel()
    cells, pegged = cells[places.inside[cells]], pegs(places)
    east = places.x[cells][:, None] - places.x[pegged]
    north = places.y[cells][:, None] - places.y[pegged]
    return cells[(np.hypot(east, north) > CLEAR * places.cell).all(axis=1)]


def layers(
    shown: Any, reasons: np.ndarray, reason_words: Sequence[str], places: Any, place: int,
    lettered: bool = True, beside: int = -1,
) -> Layers:  # fmt: skip
    """Columns of what changes on the map: `shown` is the study's map layer.

    `reasons` (place,) numbers the sentence in `reason_words` that rules a place out, -1 where none.
    `lettered` writes who leads where, which only the picture of the best options wants. `beside` is
    the place that the chosen one is compared with, -1 for none or the same.
    """
    ny, nx = places.shape
    leader = np.where(shown.ruled_out | (not lettered), -1, shown.leader)
    other = [beside] if beside >= 0 and beside != place else []
    return {
        "score": {
            "image": [100 * places.grid(np.asarray(shown.values, np.float32))],
            "x": [places.left],
            "y": [places.bottom],
            "dw": [nx * places.cell],
            "dh": [ny * places.cell],
        },
        "hatch": hatch(places.grid(np.where(places.inside, reasons, -1)), reason_words, places),
        "leaders": leader_letters(leader, places, lattice(places)),
        "peg_leaders": leader_letters(leader, places, pegs(places)),
        "chosen": {"x": places.x[[place]], "y": places.y[[place]]},
        "chosen_name": {
            "x": places.x[[place]],
            "y": places.y[[place]],
            "text": [places.short_name(place)],
        },
        "beside": {"x": places.x[other], "y": places.y[other]},
    }


def hatch(numbers: np.ndarray, reason_words: Sequence[str], places: Any) -> dict[str, Any]:
    """Boxes of ruled-out ground in metres, each with its reason."""
    found = hatching.boxes(numbers)
    x, y = (
        places.left + found[:, [0, 2]] * places.cell,
        places.bottom + found[:, [1, 3]] * places.cell,
    )
    return {
        "left": x[:, 0],
        "right": x[:, 1],
        "bottom": y[:, 0],
        "top": y[:, 1],
        "reason": [reason_words[number] for number in found[:, 4]],
    }


def pegs(places: Any) -> np.ndarray:
    """The pegged places (peg,)."""
    return np.arange(places.cells, places.x.size)


def leader_letters(leader: np.ndarray, places: Any, at: np.ndarray) -> dict[str, Any]:
    """Letter of the leading option (place,) at some of the places."""
    return {
        "x": places.x[at],
        "y": places.y[at],
        "text": [theme.letter(int(option)) if option >= 0 else "" for option in leader[at]],
    }


def peg_columns(places: Any) -> dict[str, Any]:
    """Pegs with their numbers."""
    pegged = pegs(places)
    return {
        "x": places.x[pegged],
        "y": places.y[pegged],
        "text": [str(number + 1) for number in range(len(pegged))],
        "peg": list(places.spots),
    }


def plot(columns: Layers, features: Iterable[Any], places: Any, feet: bool = False) -> hv.Overlay:
    """Map drawn from `layers` over the survey's features, its scale in metres or feet."""
    score, pegged = columns["score"], peg_columns(places)
    image = hv.Image(
        (places.columns, places.rows, score["image"][0]), ["x", "y"], "score", label="score"
    )
    moving = [
        image.opts(cmap=theme.SCORE_COLOURS, clim=(0, 100), show_legend=False, **COLOUR_BAR),
        marks.dressed(marks.words(columns["leaders"], "leaders", **LETTERS), **PLATE),
        marks.dressed(
            marks.words(columns["peg_leaders"], "peg_leaders", **LETTERS), x_offset=17, **PLATE
        ),
    ]
    standing = [
        marks.dressed(
            marks.bars(
                columns["hatch"],
                "hatch",
                tools=["hover"],
                hover_tooltips=[("ruled out", "@reason")],
            ),
            **HATCH,
        ),
        *survey_marks.elements(features, extent(places)),
        marks.dots(
            pegged, "pegs", marker="square", size=18, fill_color=theme.PAPER, line_color=theme.INK
        ),
        marks.words(pegged, "peg_numbers", **LETTERS),
        marks.dots(columns["beside"], "beside", size=34, fill_color=None, **BESIDE),
        marks.dots(columns["chosen"], "chosen", size=30, fill_color=None, **RING),
        marks.dressed(
            marks.words(columns["chosen_name"], "chosen_name", **LETTERS | CHOSEN),
            y_offset=25,
            **PLATE,
        ),
    ]
    drawn = [*moving, *map(marks.above, standing)]
    width, height = places.shape[1] * places.cell, places.shape[0] * places.cell
    return marks.bare(
        hv.Overlay(drawn),
        xlim=(places.left, places.left + width),
        ylim=(places.bottom, places.bottom + height),
        xaxis=None,
        yaxis=None,
        hooks=[furniture(places, feet)],
    )


def extent(places: Any) -> float:
    """Longer side of the grid [m]."""
    return max(places.shape) * float(places.cell)


COLOUR_BAR = {
    "colorbar": True,
    "clabel": "of 100",
    "colorbar_position": "right",
    "colorbar_opts": {
        "width": 10,
        "padding": 4,
        "major_label_text_font_size": "12px",
    },
}


def in_feet(figure: Any) -> Range1d:
    """The map's range from west to east in feet, which the browser keeps in step."""
    start, end = (FEET * float(side) for side in (figure.x_range.start, figure.x_range.end))
    figure.extra_x_ranges = {"feet": Range1d(start=start, end=end)}
    return figure.extra_x_ranges["feet"]


def furniture(places: Any, feet: bool) -> Any:
    """Hook that gives the map equal scales, a scale bar and a north arrow."""
    ny, nx = places.shape
    frame = {
        "x": places.left + nx * places.cell / 2,
        "y": places.bottom + ny * places.cell / 2,
        "width": nx * places.cell,
        "height": ny * places.cell,
    }

    def add(plot: Any, _element: Any) -> None:
        figure = plot.state
        # A colour bar that shares the picture's colours lays the figure out anew for new scores.
        for bar in figure.select({"type": ColorBar}):
            colours = bar.color_mapper
            bar.color_mapper = LinearColorMapper(palette=colours.palette, low=0, high=100)
        across = in_feet(figure) if feet else figure.x_range
        fit = CustomJS(
            args={"fig": figure, "across": across, "feet": FEET, **frame}, code=EQUAL_SCALE
        )
        figure.js_on_change("inner_width", fit)
        figure.js_on_change("inner_height", fit)
        figure.add_layout(
            ScaleBar(
                range=across,
                unit="ft" if feet else "m",
                dimensional=ImperialLength(include=["ft"], ticks=FEET_TICKS)
                if feet
                else MetricLength(),
                location="bottom_left",
                bar_length=0.2,
                border_line_color=None,
                background_fill_alpha=0.85,
                level="overlay",
            )
        )
        figure.add_layout(
            Label(
                x=Node(target="frame", symbol="right", offset=-18),
                y=Node(target="frame", symbol="top", offset=22),
                text="N \N{UPWARDS ARROW}",
                text_align="right",
                text_font_size="16px",
                text_color=theme.INK,
                level="overlay",
            )
        )

    return add
