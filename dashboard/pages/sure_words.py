"""How far a choice stands, drawn as counts and dots that people read without any statistics."""

from collections.abc import Callable
from html import escape

import numpy as np
import pandas as pd

from dashboard import theme
from model.language import _
from model.robustness import NEAR, SURVEY, WEIGHTS, Robustness

Shown = Callable[[str], str]
NAMED = 6  # options that have a row
SELDOM = 0.005  # share that reads as 0 of 100
DOT = 2.6  # radius of a dot, on a line 200 wide from 0 to 100
BIN = 4.0  # points of score whose dots stand on one another
ROWS = 5  # figures worth measuring that are listed


def views() -> tuple[tuple[str, str], ...]:
    """The views that are counted, with the words over their columns."""
    return (
        (NEAR, _("near your weights")),
        (WEIGHTS, _("any weights")),
        (SURVEY, _("the survey's doubt")),
    )


def named(told: Robustness) -> list[int]:
    """Options that are best now and then, the most often first."""
    share = np.max([told.best_share(view) for view, _words in views()], axis=0)
    order = np.argsort(-told.best_share(NEAR) - 1e-3 * share, kind="stable")
    return [int(option) for option in order if share[option] >= SELDOM][:NAMED]


def best_table(told: Robustness) -> str:
    """How often each option is best, of 100, and how its score may turn out."""
    heads = "".join(f'<th scope="col">{escape(words)}</th>' for _view, words in views())
    rows = "".join(best_row(told, option) for option in named(told))
    caption = escape(_("Best in how many of 100, at {name}").format(name=told.name))
    dots = escape(_("score in 20 surveys, each as likely"))
    return (
        f"<table><caption>{caption}</caption><thead><tr>"
        f'<th scope="col">{escape(_("Tree"))}</th>{heads}<th scope="col">{dots}</th></tr></thead>'
        f"<tbody>{rows}</tbody><tfoot><tr><td></td><td></td><td></td><td></td>"
        f'<td class="ends"><span>0</span><span>{escape(_("of 100"))}</span></td>'
        "</tr></tfoot></table>"
    )


def best_row(told: Robustness, option: int) -> str:
    """One option: three counts and its dots."""
    leads = option == told.leader
    tone = theme.LEADER if leads else theme.CONTENDER
    cells = "".join(
        f'<td class="count"><i style="width:{58 * told.best_share(view)[option]:.0f}%;'
        f'background:{tone}"></i><span>{100 * told.best_share(view)[option]:.0f}</span></td>'
        for view, _words in views()
    )
    mark = f"<b>{theme.letter(option)}</b>" if leads else theme.letter(option)
    return (
        f'<tr><th scope="row" class="tree">{mark} {escape(told.options[option])}</th>{cells}'
        f"<td>{dots_picture(told.dots[option], tone)}</td></tr>"
    )


def dots_picture(dots: np.ndarray, tone: str) -> str:
    """Twenty dots over a line from 0 to 100: each is as likely as any other (quantile dots)."""
    known = 100 * dots[np.isfinite(dots)]
    if not known.size:
        return escape(_("cannot stand"))
    bins = np.round(known / BIN)
    level = [int((bins[:number] == one).sum()) for number, one in enumerate(bins)]
    height = 2 * DOT * (max(level) + 1) + 2
    low, high = (f"{value:.0f}" for value in (known[0], known[-1]))
    said = escape(_("scores from {low} to {high}").format(low=low, high=high))
    circles = "".join(
        f'<circle cx="{4 + 1.92 * BIN * at:.1f}" cy="{height - 1 - DOT * (2 * up + 1):.1f}" '
        f'r="{DOT - 0.2}" fill="{tone}"/>'
        for at, up in zip(bins, level, strict=True)
    )
    return (
        f'<svg role="img" aria-label="{said}" viewBox="0 0 200 {height:.0f}" '
        f'width="180" height="{0.9 * height:.0f}">'
        f'<path d="M4 {height - 0.5:.1f}H196" stroke="{theme.FAINT}"/>{circles}</svg>'
    )


def measuring_table(told: Robustness, shown: Shown) -> str:
    """Figures to measure next, the most worth first; empty where none would change the choice."""
    worth = told.measure_next[told.measure_next["change"] >= SELDOM].head(ROWS)
    if worth.empty:
        return ""
    heads = (_("Measure"), _("now"), _("changes the choice"), _("and then brings"))
    head = "".join(f'<th scope="col">{escape(words)}</th>' for words in heads)
    rows = "".join(measuring_row(row, shown) for _number, row in worth.iterrows())
    caption = escape(_("What to measure next"))
    return (
        f"<table><caption>{caption}</caption><thead><tr>{head}</tr></thead>"
        f"<tbody>{rows}</tbody></table>"
    )


def measuring_row(row: pd.Series, shown: Shown) -> str:
    """One figure: by what means, how well it is known, and what knowing it better would do."""
    unit = _(str(row["unit"]))
    now = f"{row['value']:.3g} {unit}".strip()
    off = f"{row['plus_minus']:.2g} {unit}".strip()
    known = _("{value}, give or take {off}").format(value=shown(now), off=shown(off))
    change = _("{count} in 100 times").format(count=f"{100 * row['change']:.0f}")
    gain = _("{points} points").format(points=f"{100 * row['gain_if']:.0f}")
    return (
        f'<tr><th scope="row">{escape(str(row["doubt"]))}, {escape(_(str(row["by"])))}</th>'
        f"<td>{escape(known)}</td><td>{escape(change)}</td><td>{escape(gain)}</td></tr>"
    )
