"""What would change it: each contender's score as one weight, or the trade-off, runs its way."""

from collections.abc import Callable, Sequence
from typing import Any

import holoviews as hv
import numpy as np

from dashboard import theme
from dashboard.live import Layers
from dashboard.plots import marks
from model.language import _

NAMED = 5  # contenders that carry their name; the others are faint lines


def leaders(scores: np.ndarray) -> np.ndarray:
    """Option in the lead at each share; -1 where none may stand."""
    known = np.where(np.isnan(scores), -np.inf, scores)
    return np.where(np.isfinite(known.max(axis=0)), known.argmax(axis=0), -1)


def score_range(scores: np.ndarray) -> tuple[float, float]:
    """Range that holds every contender with a little room, of scores [0 to 100]."""
    if np.isnan(scores).all():
        return 0.0, 100.0
    low, high = float(np.nanmin(scores)), float(np.nanmax(scores))
    room = 0.08 * max(high - low, 10.0)
    return max(0.0, low - room), high + room


def percent(share: float) -> str:
    """A share as people read it.

    >>> percent(0.043)
    '4 %'
    """
    return f"{100 * share:.0f} %"


def layers(
    shares: np.ndarray, scores: np.ndarray, now: float, crossings: Sequence[tuple[float, int, int]],
    leader: int, labels: Sequence[str], words: Callable[[float], str] = percent,
) -> Layers:  # fmt: skip
    """Columns of the plot: scores (option, share) [0 to 100], NaN where ruled out.

    `words` says what a share is: of all weight, or of the way along the trade-off.
    """
    along = 100.0 * np.asarray(shares)
    standing = [int(o) for o in np.flatnonzero(~np.isnan(scores).all(axis=1))]
    named = contenders(scores, standing, leader)
    standing.sort(key=lambda option: (option == leader, option in named))
    colours = [
        theme.LEADER if option == leader else theme.CONTENDER if option in named else theme.FAINT
        for option in standing
    ]
    low, high = score_range(scores)
    return {
        "scores": {
            "xs": [along] * len(standing),
            "ys": [scores[option] for option in standing],
            "line_color": colours,
            "line_width": [3.0 if option == leader else 1.4 for option in standing],
        },
        "today": {"x0": [100 * now], "x1": [100 * now], "y0": [low], "y1": [high]},
        "today_words": {
            "x": [100 * now],
            "y": [low + 0.05 * (high - low)],
            "text": [f" {_('today')} {words(now)} "],
            "text_align": ["left" if now < 0.8 else "right"],
        },
        "names": end_names(scores, named, leader, labels),
        **crossing_marks(shares, scores, crossings, labels, words),
    }


def contenders(scores: np.ndarray, standing: Sequence[int], leader: int) -> list[int]:
    """Options that carry their name: who leads at some share, then who comes nearest to it."""
    named = [option for option in dict.fromkeys([leader, *leaders(scores).tolist()]) if option >= 0]
    top = np.nanmax(scores[list(standing)], axis=0) if standing else np.zeros(1)
    near = sorted(standing, key=lambda option: float(np.nanmin(top - scores[option])))
    return list(dict.fromkeys([*named, *near]))[: max(NAMED, len(named))]


def end_names(
    scores: np.ndarray, named: Sequence[int], leader: int, labels: Sequence[str]
) -> dict[str, Any]:
    """Names at the right end of the lines, moved apart so that all can be read."""
    low, high = score_range(scores)
    gap = (high - low) / 11
    placed = theme.spread_apart([float(scores[o, -1]) for o in named], gap)
    over = max([*placed, high - gap / 2]) - (high - gap / 2)
    return {
        "x": np.full(len(named), 101.0),
        "y": np.asarray(placed) - over,
        "text": [f"{theme.letter(o)}  {labels[o]}" for o in named],
        "short": [theme.letter(o) for o in named],
        "text_color": [theme.LEADER if o == leader else theme.INK for o in named],
    }


def crossing_marks(
    shares: np.ndarray, scores: np.ndarray, crossings: Sequence[tuple[float, int, int]],
    labels: Sequence[str], words: Callable[[float], str],
) -> dict[str, dict[str, Any]]:  # fmt: skip
    """Dots where the lead passes on, with the words for it."""
    x = [100.0 * share for share, *_rest in crossings]
    y = [float(np.interp(share, shares, scores[to])) for share, _before, to in crossings]
    texts = [f"   {words(share)}: {labels[to]}   " for share, _before, to in crossings]
    if not x:
        x, y, texts = [np.nan], [np.nan], [""]
    return {
        "crossings": {"x": np.asarray(x), "y": np.asarray(y)},
        "crossing_words": {
            "x": np.asarray(x),
            "y": np.asarray(y),
            "text": texts,
            "text_align": ["right" if along > 55 else "left" for along in x],
        },
    }


def plot(columns: Layers) -> hv.Overlay:
    """Tipping chart drawn from `layers`."""
    marked = [
        marks.strokes(columns["today"], "today", color=theme.INK, line_dash="4 3"),
        marks.lines(columns["scores"], "scores"),
        marks.dots(
            columns["crossings"], "crossings",
            size=9, fill_color=theme.PAPER, line_color=theme.INK, line_width=2,
        ),
        marks.words(columns["today_words"], "today_words", text_color=theme.INK),
        marks.words(
            columns["crossing_words"], "crossing_words",
            text_color=theme.INK, text_baseline="bottom",
        ),
        marks.fitted(marks.words(columns["names"], "names")),
    ]  # fmt: skip
    return marks.bare(
        hv.Overlay(marked),
        xlim=(0, 154),
        ylim=score_range(np.array(columns["scores"]["ys"] or [[np.nan]])),
        xticks=[(share, f"{share} %") for share in (0, 25, 50, 75, 100)],
        yticks=3,
        xlabel="",
        ylabel=_("of 100"),
    )
