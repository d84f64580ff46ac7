"""Order of merit at one place: aligned bars, each factor's contribution as an aligned column."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import holoviews as hv
import numpy as np

from dashboard import theme
from dashboard.live import Layers
from dashboard.plots import marks

NAMES, SCORE, COLUMNS, COLUMNS_END, END = 0.0, 212.0, 292.0, 546.0, 576.0
SCORE_WIDTH = 50.0
WIDEST = 34.0  # of a column, however few they are
SCALES = (0.06, 0.08, 0.1, 0.15, 0.2, 0.3, 0.5, 0.75, 1.0)
LEFT_SHARE, RIGHT_SHARE = 0.28, 0.6  # of a column, either side of where its bars begin
HALF = 0.34
NAME, SHORT_NAME, REASON, SHORT_REASON = 26, 16, 52, 38  # letters that fit
HEADING = 6.8  # rows kept free above the first for the slanted headings


@dataclass(frozen=True)
class Heading:
    """A factor at the head of its column."""

    label: str
    colour: str
    family: str = ""


def rows(here: Any) -> np.ndarray:
    """Row of each place in the order of merit, the rule-outs set off below a line."""
    ruled_out = np.asarray(here.ruled_out)[list(here.order)]
    return np.arange(len(ruled_out)) + np.where(ruled_out, 1.1, 0.0)


def row_at(here: Any, y: float) -> int | None:
    """Option whose row holds the height `y`, None between rows."""
    nearest = int(np.abs(rows(here) - y).argmin())
    return int(here.order[nearest]) if abs(rows(here)[nearest] - y) <= 0.5 else None


def column_at(x: float, headings: Sequence[Heading]) -> int | None:
    """Factor whose column holds `x`, None left of the columns."""
    column = int((x - COLUMNS) // column_pitch(len(headings)))
    return column if 0 <= column < len(headings) else None


def layers(
    here: Any, labels: Sequence[str], headings: Sequence[Heading], weights: np.ndarray, chosen: int
) -> Layers:
    """Columns of the plot for the options at one place."""
    order, y = list(here.order), rows(here)
    allowed = ~np.asarray(here.ruled_out)[order]
    score = np.nan_to_num(np.asarray(here.score, float)[order])
    leads = np.asarray(here.rank)[order] == 1
    colours = np.where(leads, theme.LEADER, theme.CONTENDER)
    drawn = np.where(allowed, score, 0.0)
    right = SCORE + SCORE_WIDTH * drawn
    return {
        "chosen": band(y, order.index(chosen)),
        "bars": {
            "left": np.full(len(y), SCORE),
            "right": right,
            "bottom": y + HALF,
            "top": y - HALF,
            "fill_color": list(colours),
        },
        "letters": {
            "x": np.full(len(y), NAMES + 9),
            "y": y,
            "text": [theme.letter(option) for option in order],
            "text_color": [theme.LEADER if lead else theme.INK for lead in leads],
        },
        "names": {
            "x": np.full(len(y), NAMES + 21),
            "y": y,
            "text": [shortened(labels[option], NAME) for option in order],
            "short": [shortened(labels[option], SHORT_NAME) for option in order],
            "text_color": [theme.INK if ok else theme.QUIET for ok in allowed],
        },
        "scores": {
            "x": right + 4,
            "y": y,
            "text": [f"{100 * s:.0f}" if ok else "" for s, ok in zip(score, allowed, strict=True)],
        },
        "reasons": {
            "x": np.full(len(y), SCORE),
            "y": y,
            "text": [shortened(here.reason[option], REASON) for option in order],
            "short": [shortened(here.reason[option], SHORT_REASON) for option in order],
        },
        "line": rule_out_line(y, allowed),
        "line_words": rule_out_words(y, allowed),
        "headings": heading_words(headings),
        **contribution_columns(here, headings, weights),
    }


def shortened(words: str, most: int) -> str:
    """Words cut to at most so many letters.

    >>> shortened("Conference on Quince C", 18)
    'Conference on Qui\u2026'
    """
    return words if len(words) <= most else words[: most - 1] + "\N{HORIZONTAL ELLIPSIS}"


def band(y: np.ndarray, row: int) -> dict[str, Any]:
    """Quiet band behind the chosen row."""
    return {"left": [NAMES], "right": [END], "bottom": [y[row] + 0.5], "top": [y[row] - 0.5]}


def rule_out_line(y: np.ndarray, allowed: np.ndarray) -> dict[str, Any]:
    """Line between what may stand here and what may not."""
    if allowed.all():
        return {"x0": [np.nan], "y0": [np.nan], "x1": [np.nan], "y1": [np.nan]}
    height = float(y[~allowed].min()) - 1.3
    return {"x0": [NAMES], "y0": [height], "x1": [END], "y1": [height]}


def rule_out_words(y: np.ndarray, allowed: np.ndarray) -> dict[str, Any]:
    """Words that name the line."""
    if allowed.all():
        return {"x": [NAMES], "y": [0.0], "text": [""]}
    return {"x": [NAMES + 9], "y": [float(y[~allowed].min()) - 0.9], "text": ["ruled out here"]}


def column_pitch(columns: int) -> float:
    """From one column of contributions to the next."""
    return min(WIDEST, (COLUMNS_END - COLUMNS) / columns)


def contribution_columns(
    here: Any, headings: Sequence[Heading], weights: np.ndarray
) -> dict[str, dict[str, Any]]:
    """Contribution of each factor on the outline of its weight, a column a factor.

    What a weak point costs can be more than its weight: then the bar runs, dark, to the left, as
    far as its column goes.
    """
    y = rows(here)
    order = np.asarray(here.order)
    keep = ~np.asarray(here.ruled_out)[order]
    count, pitch = int(keep.sum()), column_pitch(len(headings))
    contribution = np.nan_to_num(np.asarray(here.contributions, float)[:, order[keep]])
    scale = RIGHT_SHARE * pitch / next(top for top in SCALES if top >= weights.max() - 1e-9)
    start = np.repeat(COLUMNS + pitch * (np.arange(len(headings)) + LEFT_SHARE), count)
    height = np.tile(y[keep], len(headings))
    end = start + np.maximum(scale * contribution.ravel(), -LEFT_SHARE * pitch)
    edges = {"bottom": height + HALF, "top": height - HALF}
    colours = np.repeat([heading.colour for heading in headings], count)
    return {
        "weights": {**edges, "left": start, "right": start + scale * np.repeat(weights, count)},
        "contributions": {
            **edges,
            "left": np.minimum(start, end),
            "right": np.maximum(start, end),
            "fill_color": [
                theme.INK if value < 0 else colour
                for value, colour in zip(contribution.ravel(), colours, strict=True)
            ],
        },
    }


def heading_words(headings: Sequence[Heading]) -> dict[str, Any]:
    """Slanted headings over the columns; where there is no room, families over their first."""
    pitch = column_pitch(len(headings))
    x = COLUMNS + pitch * (np.arange(len(headings)) + 0.3)
    families = [heading.family for heading in headings]
    firsts = ["", *families][: len(families)]
    return {
        "x": x,
        "y": np.full(len(headings), -0.9),
        "text": [heading.label for heading in headings],
        "short": [
            family if family != before else ""
            for family, before in zip(families, firsts, strict=True)
        ],
    }


def plot(columns: Layers) -> hv.Overlay:
    """Order of merit with its contributions, drawn from `layers`."""
    count = len(columns["names"]["y"])
    marked = [
        marks.bars(columns["chosen"], "chosen", fill_color="#eceff0"),
        marks.bars(columns["bars"], "bars"),
        marks.outlines(columns["weights"], "weights", line_color=theme.FAINT),
        marks.bars(columns["contributions"], "contributions"),
        marks.strokes(columns["line"], "line", color=theme.FAINT),
        marks.words(columns["line_words"], "line_words", text_color=theme.QUIET),
        marks.words(columns["letters"], "letters", text_font_style="bold", text_align="center"),
        marks.fitted(marks.words(columns["names"], "names")),
        marks.words(columns["scores"], "scores", text_color=theme.INK),
        marks.fitted(marks.words(columns["reasons"], "reasons", text_color=theme.QUIET)),
        marks.above(
            marks.fitted(
                marks.words(columns["headings"], "headings", text_color=theme.QUIET, angle=60)
            )
        ),
        marks.above(
            marks.words(
                {"x": [SCORE], "y": [-0.9], "text": ["of 100"]}, "head", text_color=theme.QUIET
            )
        ),
    ]
    return marks.bare(
        hv.Overlay(marked),
        xlim=(NAMES, END),
        ylim=(-HEADING, count + 0.8),
        invert_yaxis=True,
        xaxis=None,
        yaxis=None,
    )
