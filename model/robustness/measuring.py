"""What is worth measuring next: how often it would change the choice, and what that brings."""

import numpy as np
import pandas as pd

from model.decision.information import worth_of_measuring
from model.results import TIE
from model.robustness.doubt import Doubt

COLUMNS = ["doubt", "by", "value", "plus_minus", "unit", "given", "change", "gain", "gain_if"]
SELDOM = 0.02  # of choices changed: more seldom than that nobody measures for it


def measuring(
    scores: np.ndarray, z: np.ndarray, doubts: tuple[Doubt, ...], moving: np.ndarray
) -> pd.DataFrame:
    """Figures by what measuring them next is worth, the most worth first.

    `scores` (draw, option) [0 to 1], NaN where ruled out, which counts as 0: a tree that cannot
    stand there is worth nothing. `z` (draw, doubt) are the standard scores behind them. `change`
    is the share of cases in which the choice changes, `gain` the score that measuring brings on
    average and `gain_if` where it changes the choice. `gain` ranks: it is chance times what it
    brings. Only what can be measured now, and better than it is known, is listed.
    """
    utilities = np.nan_to_num(scores)
    rows = []
    for number in moving:
        doubt = doubts[number]
        if not doubt.measurable:
            continue
        found = worth_of_measuring(utilities, z[:, number], doubt.score_of_error())
        change, gain = float(found.change), max(float(found.gain), 0.0)
        rows.append(
            (
                *(doubt.label, doubt.by, doubt.value, 2 * doubt.sd, doubt.unit, doubt.given),
                *(change, gain, gain / change if change > 0 else 0.0),
            )
        )
    table = pd.DataFrame(rows, columns=COLUMNS)
    return table.sort_values("gain", ascending=False, kind="stable", ignore_index=True)


def worthwhile(table: pd.DataFrame) -> pd.DataFrame:
    """The rows worth an errand: they change the choice now and then, and by more than a tie."""
    return table[(table["change"] >= SELDOM) & (table["gain_if"] >= TIE)]
