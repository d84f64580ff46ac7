"""How sure it is: asked for, counted, and marked when choices have changed since."""

from dataclasses import replace

import numpy as np
import pandas as pd
import pytest

from dashboard.pages import sure
from dashboard.pages.sure_words import best_table, dots_picture, measuring_table
from model.robustness import BOTH, NEAR, SURVEY, WEIGHTS, Robustness


def told(study):
    """A made-up answer of the right form; the model's own tests hold the figures."""
    options = len(study.options)
    shares = np.zeros((options, options))
    shares[0, 0], shares[1, 0] = 0.34, 0.66
    empty = pd.DataFrame(
        columns=["doubt", "by", "value", "plus_minus", "unit", "change", "gain_if"]
    )
    return Robustness(
        study.place, "peg <b>Hollow</b>", tuple(o.label for o in study.options),
        tuple(f.label for f in study.factors), (), False, 0, 1, 0.05, 0.01,
        dict.fromkeys((NEAR, WEIGHTS, SURVEY, BOTH), shares),
        np.zeros((options, len(study.factors))), study.weights, np.zeros(options),
        np.full((options, 20), 0.5), np.zeros(options), np.zeros(options, bool),
        ("",) * options, np.zeros(options, bool), study.weights, empty, empty,
        ("It leads.", "Best in 34 of 100."),
    )  # fmt: skip


@pytest.fixture
def asked(weigh, study, monkeypatch):
    seen = []

    def robustness(twin, place, rules, progress):
        seen.append((twin, place, rules))
        progress(0.5, "the house")
        return told(study)

    monkeypatch.setattr(sure, "robustness", robustness)
    weigh.panels.tabs.open = "sure"
    return seen


def test_it_is_tried_on_a_study_of_its_own(weigh, study, asked):
    weigh.panels.sure.ask.clicks += 1
    twin, place, _rules = asked[0]
    assert twin is not study
    assert place == study.place
    assert "Best in 34 of 100." in weigh.panels.sure.said.object


def test_an_answer_is_out_of_date_when_choices_have_changed(weigh, study, asked):
    weigh.panels.sure.ask.clicks += 1
    assert not weigh.panels.sure.out_of_date
    weigh.act(lambda: setattr(study, "option", 3))
    assert not weigh.panels.sure.out_of_date
    weigh.act(lambda: study.move_weight("spacing", 0.7))
    assert weigh.panels.sure.out_of_date
    assert "changed since" in weigh.panels.sure.said.object
    weigh.take_back()
    assert not weigh.panels.sure.out_of_date


def test_what_is_settled_reaches_the_model(weigh, study, asked):
    rules = weigh.panels.sure.rules
    first, second = (study.factors[n].name for n in (2, 5))
    rules.factor.value = first
    rules.add.clicks += 1
    rules.kind.value, rules.factor.value, rules.other.value = "ordered", second, first
    rules.add.clicks += 1
    weigh.panels.sure.ask.clicks += 1
    found = asked[0][2]
    assert found.fixed == {2: pytest.approx(study.weights[2], abs=1e-6)}
    assert found.order == ((5, 2),)
    rules._remove(rules.settled[0])
    assert rules.rules().fixed == {}
    assert weigh.panels.sure.out_of_date


def test_what_cannot_hold_together_is_said_and_not_settled(weigh, study):
    rules = weigh.panels.sure.rules
    study.weights = np.eye(len(study.factors))[0] * 0.9 + 0.1 / len(study.factors)
    rules.factor.value = study.factors[0].name
    rules.add.clicks += 1
    rules.kind.value, rules.factor.value = "ordered", study.factors[1].name
    rules.other.value = study.factors[0].name
    rules.add.clicks += 1
    assert len(rules.settled) == 1
    assert "cannot hold together" in weigh.session.said


def test_counts_are_out_of_100_and_names_are_text(study):
    table = best_table(told(study))
    assert "<span>34</span>" in table
    assert "<b>Hollow" not in table


@pytest.mark.parametrize("scores", [np.linspace(0.1, 0.9, 20), np.full(20, 0.5)])
def test_there_are_twenty_dots_and_all_are_inside_the_picture(scores):
    picture = dots_picture(scores, "#000000")
    assert picture.count("<circle") == 20
    height = float(picture.partition('viewBox="0 0 200 ')[2].partition('"')[0])
    tops = [float(part.partition('"')[0]) for part in picture.split('cy="')[1:]]
    assert min(tops) > 0
    assert max(tops) < height


def test_what_to_measure_is_listed_with_means_and_doubt(study):
    rows = [("height of the <i>hedge</i>", "with a pole", 7.0, 1.05, "m", 0.12, 0.06)]
    found = pd.DataFrame(
        rows, columns=["doubt", "by", "value", "plus_minus", "unit", "change", "gain_if"]
    )
    table = measuring_table(replace(told(study), measure_next=found), lambda text: text)
    assert "12 in 100 times" in table
    assert "7 m, give or take 1.1 m" in table
    assert "<i>hedge" not in table
    assert measuring_table(told(study), str) == ""
