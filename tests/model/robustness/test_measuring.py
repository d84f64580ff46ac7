"""What to measure next, against the worked example of a linear margin."""

import numpy as np
import pandas as pd
import pytest

from model.robustness.doubt import Doubt, Subject
from model.robustness.measuring import COLUMNS, measuring, worthwhile
from model.robustness.outcome import standard_scores


def figure(name: str, better: float, by: str = "with a tape") -> Doubt:
    return Doubt(name, name, 0.0, 1.0, 1.0, "m", True, "", Subject(0), better=better, by=by)


def test_a_figure_that_may_turn_the_choice_is_worth_what_theory_says():
    # two options, margin normal with mean .04 and sd .04 by one figure measured without error:
    # gain = sd * (phi(1) - 1 * (1 - Phi(1))) = .00333262 and it turns the choice in 15.87 % of
    # cases (unit normal loss: Raiffa & Schlaifer 1961, tables, from memory; phi, Phi any table)
    z = standard_scores(20_000, 2, 4)
    scores = np.column_stack([0.54 + 0.04 * z[:, 0], np.full(len(z), 0.5)])
    found = (figure("telling", 1e-6), figure("idle", 1e-6))
    table = measuring(scores, z, found, np.arange(2))
    assert table["doubt"][0] == "telling"
    assert table["gain"][0] == pytest.approx(0.00333, abs=3e-4)
    assert table["change"][0] == pytest.approx(0.1587, abs=0.02)
    assert table["gain_if"][0] == pytest.approx(0.00333 / 0.1587, abs=3e-3)
    assert table["gain"][1] < 3e-4


def test_what_nobody_can_measure_is_not_asked_for():
    z = standard_scores(500, 2, 4)
    scores = np.column_stack([0.5 + 0.1 * z[:, 0], np.full(len(z), 0.5)])
    found = (figure("grown size", np.nan, ""), figure("known well", 1.0))
    assert measuring(scores, z, found, np.arange(2)).empty


def test_a_change_between_near_equals_is_not_worth_an_errand():
    # it changes the choice in half the cases and brings a tenth of a point: not worth it
    near = ("pH", "in a laboratory", 6.0, 0.5, "", False, 0.5, 0.0005, 0.001)
    worth = ("depth", "in a pit", 60.0, 15.0, "cm", False, 0.2, 0.004, 0.02)
    table = pd.DataFrame([near, worth], columns=COLUMNS)
    assert worthwhile(table)["doubt"].tolist() == ["depth"]
