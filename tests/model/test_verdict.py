"""The recommendation in words: what leads, by how much, what would overturn it, what is out."""

import numpy as np

from model.decision.tipping import Tipping
from model.results import Here
from model.verdict import verdict

OPTIONS = ["Apple", "Pear", "Plum", "Gage", "Quince", "Damson"]


def here(scores, reasons=None):
    """Options judged at a made-up place: a reason rules one out."""
    reasons = reasons or [""] * len(scores)
    score, out = np.array(scores), np.array([bool(reason) for reason in reasons])
    order = sorted(range(len(scores)), key=lambda o: (out[o], -score[o]))
    best = max((s for s, no in zip(score, out, strict=True) if not no), default=0.0)
    close = ~out & (score >= best - 0.01)
    rank = np.where(out, 0, np.where(close, 1, 2))
    none = np.zeros((0, len(scores)))
    return Here(
        0,
        tuple(order),
        score,
        rank,
        close & (close.sum() > 1),
        out,
        tuple(reasons),
        none,
        none,
        none,
    )


def tip(low, high, below=-1, above=-1, now=0.2):
    return Tipping(low, high, below, above, now, 0)


def test_the_leader_is_named_with_its_lead():
    said = verdict(here([0.9, 0.7]), "peg A", OPTIONS, {"Views": tip(0, 1)})
    assert said.startswith("At peg A: Apple leads with 90 of 100, 20 ahead of Pear.")
    assert "No single weight can overturn that." in said


def test_the_nearest_tipping_point_is_the_one_that_is_told():
    tips = {"Views": tip(0.1, 0.9, above=1), "Access": tip(0.12, 0.25, below=1, above=2)}
    said = verdict(here([0.9, 0.7, 0.6]), "peg A", OPTIONS, tips)
    assert "With access above 25 % of the weight (now 20 %), Plum would lead." in said


def test_a_weight_taken_away_altogether_is_said_so():
    said = verdict(here([0.9, 0.7]), "peg A", OPTIONS, {"Late frost": tip(0.0, 1, below=1)})
    assert "With no weight on late frost, Pear would lead." in said


def test_a_tie_is_said_as_a_tie_and_long_ones_are_counted():
    said = verdict(here([0.9, 0.899, 0.895, 0.893, 0.891, 0.5]), "peg A", OPTIONS, {})
    assert "Apple, Pear, Plum, Gage and 1 more are a tie at 90 of 100; let taste choose." in said


def test_a_tipping_point_between_tied_options_is_no_news():
    tips = {"Views": tip(0.19, 1, below=1)}
    assert "would lead" not in verdict(here([0.9, 0.899, 0.5]), "peg A", OPTIONS, tips)


def test_the_reason_that_stops_most_is_told_and_all_are_counted():
    reasons = ["", "", "too cold", "no room", "no room", "no room"]
    said = verdict(here([0.9, 0.7, 0.1, 0.1, 0.1, 0.1], reasons), "peg A", OPTIONS, {})
    assert "Ruled out: 4 (3 of them, no room)." in said


def test_where_nothing_can_stand_it_says_why():
    said = verdict(here([0.9, 0.7], ["on the pipe", "on the pipe"]), "peg A", OPTIONS, {})
    assert said == "At peg A: nothing on the short list can stand here. Ruled out: 2 (on the pipe)."


def test_the_only_one_left_is_said_to_be_the_only_one():
    said = verdict(here([0.9, 0.7], ["", "no room"]), "peg A", OPTIONS, {})
    assert "Apple, 90 of 100, is all that can stand here." in said
