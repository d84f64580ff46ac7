"""The rows of the page's two lists: the order of merit, and the chosen option's figures."""

from collections.abc import Callable
from typing import Any

import numpy as np

from dashboard import theme
from dashboard.pages.ranked_rows import Head, Row
from model.language import _
from model.study import Study

Shown = Callable[[str], str]


def heads(study: Study) -> list[Head]:
    """A head for the column of each factor."""
    return [
        Head(
            _(factor.label),
            theme.family_colour(factor.group),
            _(theme.family_label(factor.group)),
        )
        for factor in study.factors
    ]


def merit_rows(study: Study, here: Any, shown: Shown) -> list[Row]:
    """Options at a place in order of merit, those ruled out last with their reasons."""
    return [merit_row(study, here, option, shown) for option in here.order]


def merit_row(study: Study, here: Any, option: int, shown: Shown) -> Row:
    """One option at a place: its score, and what each factor brings to it."""
    out, leads = bool(here.ruled_out[option]), int(here.rank[option]) == 1
    score = float(np.nan_to_num(here.score[option]))
    return Row(
        id=str(option),
        mark=theme.letter(option),
        label=study.options[option].label,
        share=None if out else score,
        figure="" if out else f"{100 * score:.0f}",
        tone=theme.LEADER if leads else theme.CONTENDER,
        note=shown(here.reason[option]),
        chosen=option == study.option,
        leads=leads,
        out=out,
        parts=() if out else tuple(np.nan_to_num(here.contributions[:, option]).tolist()),
    )


def worst_first(worth: np.ndarray) -> np.ndarray:
    """Factors from the least desirable figure to the most; the unknown last."""
    return np.argsort(np.where(np.isnan(worth), np.inf, worth), kind="stable")


def factor_rows(study: Study, here: Any, chosen: int, shown: Shown) -> list[Row]:
    """One bar a factor for the option looked at, worst first, each figure in its unit."""
    worth = here.desirabilities[:, study.option]
    return [factor_row(study, here, int(n), chosen, shown) for n in worst_first(worth)]


def factor_row(study: Study, here: Any, number: int, chosen: int, shown: Shown) -> Row:
    """One factor of the option looked at."""
    factor, worth = study.factors[number], float(here.desirabilities[number, study.option])
    figure = here.measures[number, study.option]
    return Row(
        id=factor.name,
        label=_(factor.label),
        share=None if np.isnan(worth) else worth,
        figure=shown(theme.figure_text(figure, factor.decimals, factor.unit)),
        tone=theme.family_colour(factor.group),
        chosen=number == chosen,
    )
