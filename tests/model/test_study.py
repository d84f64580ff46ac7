"""The study: choices in, order of merit out, each stage once per change."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.decision.desirability import Curve
from model.decision.power_mean import power_mean
from model.opening import open_study
from model.shadows import shadows
from model.study import Study
from tests.model.demo import DEMO, demo_study
from tests.model.small_site import APPLE, PEAR, PLUM, site, spot, study


@pytest.fixture
def made():
    return study(spots=(spot("peg", 12, 12), spot("other", 45, 20)))


def test_a_weight_moved_never_measures_again(monkeypatch):
    calls = []
    measured = Study._measured

    def counting(self, factor, *args, **figures):
        calls.append(factor.name)
        return measured(self, factor, *args, **figures)

    monkeypatch.setattr(Study, "_measured", counting)
    made = study()
    _ = made.leaders
    assert sorted(calls) == sorted(factor.name for factor in made.factors)
    made.move_weight("spacing", 0.5)
    made.trade_off = 1.0
    _ = made.leaders
    assert len(calls) == len(made.factors)


def test_a_curve_dragged_never_measures_again_and_changes_the_scores(made, monkeypatch):
    before = made.leaders.score.copy()
    first = made.measures["vigour"]
    made.settings["vigour"].curve = Curve((1.0, 2.0), (0.2, 0.4))
    assert made.measures["vigour"] is first
    assert not np.allclose(made.leaders.score, before, equal_nan=True)


def test_a_figure_changed_measures_only_its_own_factor(made):
    before = dict(made.measures)
    made.settings["spacing"].size = "high"
    after = made.measures
    changed = {name for name in before if after[name] is not before[name]}
    assert changed == {"spacing"}


def test_every_score_on_the_map_is_the_power_mean_of_its_desirabilities(made):
    expected = power_mean(made.desirabilities, made.weights, made.trade_off)
    for option in range(3):
        allowed = ~made.ruling.ruled_out[option] & made.ground.places.inside
        assert made.shown_scores(option)[allowed] == pytest.approx(
            expected[option][allowed], abs=1e-4
        )


def test_the_contributions_shown_add_up_to_the_score_shown():
    made = demo_study()
    for place in range(made.ground.places.cells, made.ground.places.x.size):
        here = made.here(place)
        assert here.contributions.sum(axis=0) == pytest.approx(here.score, abs=1e-6)


def test_the_leader_at_a_place_heads_its_order_of_merit():
    made = demo_study()
    for place in range(made.ground.places.cells, made.ground.places.x.size):
        here = made.here(place)
        if here.allowed.size:
            assert made.leaders.score[place] == pytest.approx(here.score[here.allowed[0]], abs=1e-3)


def test_what_is_ruled_out_never_leads_and_says_why():
    made = demo_study()
    led = np.flatnonzero(made.leaders.option >= 0)
    assert not made.ruling.ruled_out[made.leaders.option[led], led].any()
    option, place = np.argwhere(made.ruling.ruled_out)[0]
    assert made.ruling.reason(option, place)


def test_crossing_a_tipping_point_brings_the_leader_that_was_announced():
    made = open_study(DEMO)
    crossed = 0
    for place in range(made.ground.places.cells, made.ground.places.x.size):
        made.place = place
        for factor in made.factors:
            start = made.weights
            tip = made.tipping(factor.name)
            first = made.here().allowed
            for share, taker in ((tip.low - 1e-3, tip.below), (tip.high + 1e-3, tip.above)):
                if taker >= 0 and 0 <= share <= 1:
                    made.move_weight(factor.name, share)
                    score = made.here().score
                    assert score[first[taker]] >= score[first[0]] - 1e-6
                    crossed += 1
                made.weights = start
    assert crossed > 10


def test_undo_brings_back_every_choice(made):
    before = made.snapshot()
    scores = made.scores.copy()
    made.move_weight("access", 0.9)
    made.param.update(trade_off=1.0, place=5, option=2, layer="option")
    made.settings["spacing"].size = "high"
    made.options = (PLUM, APPLE)
    made.restore(before)
    assert made.options == (APPLE, PEAR, PLUM)
    assert made.snapshot()["settings"] == before["settings"]
    assert np.array_equal(made.scores, scores, equal_nan=True)


@settings(max_examples=25, deadline=None)
@given(st.lists(st.tuples(st.integers(0, 5), st.floats(0, 1)), max_size=6))
def test_weights_stay_shares_whatever_is_moved(moves):
    made = demo_study()
    start = made.weights
    for number, share in moves:
        made.move_weight(made.factors[number].name, share)
        assert made.weights.min() >= 0
        assert made.weights.sum() == pytest.approx(1)
        assert made.weights[number] == pytest.approx(share)
    made.weights = start


def test_a_family_moved_keeps_the_proportions_of_its_members(made):
    made.equal_weights()
    made.move_weight("family:room", 0.9)
    room = made.weights[made.members("family:room")]
    assert room == pytest.approx(np.full(room.size, 0.9 / room.size))


def test_a_survey_without_weather_says_that_climate_is_not_judged():
    made = study(weather=None, absent={"weather": "no weather file: chill is not judged"})
    assert "climate_fit" not in [factor.name for factor in made.factors]
    assert ("Climate fit", "no weather file: chill is not judged") in made.unjudged
    assert made.weights.sum() == pytest.approx(1)


def test_the_map_shows_nothing_where_the_looked_at_option_is_ruled_out(made):
    made.layer = "option"
    layer = made.map_layer()
    assert np.isnan(layer.values[layer.ruled_out]).all()
    assert layer.label == APPLE.label


def test_places_are_the_cells_and_then_the_pegs(made):
    places = made.ground.places
    assert places.name(places.cells) == "peg peg"
    assert places.nearest(12.5, 12.5) == places.cells
    cell = places.nearest(30.2, 50.1)
    assert abs(places.x[cell] - 30.2) <= places.cell / 2
    assert abs(places.y[cell] - 50.1) <= places.cell / 2


def test_the_ground_of_a_site_is_level_when_no_heights_are_known():
    made = study(heights=None)
    assert np.nanmax(made.ground.slope) == 0
    assert site(heights=None).heights is None


def test_a_weight_moved_neither_explains_again_nor_draws_the_shadows_again(monkeypatch):
    drawn = []
    monkeypatch.setattr(
        "model.study.shadows", lambda *asked: drawn.append(asked) or shadows(*asked)
    )
    made = study()
    made.layer = "shade"
    number = [factor.name for factor in made.factors].index("late_frost")
    said = made.explain(number, 0, 5)
    _ = made.map_layer()
    made.move_weight("spacing", 0.7)
    assert made.explain(number, 0, 5) is said
    _ = made.map_layer()
    assert len(drawn) == 1
    made.hour = 15.0
    _ = made.map_layer()
    assert len(drawn) == 2


def test_a_sentence_follows_the_figures_and_the_short_list(made):
    number = [factor.name for factor in made.factors].index("spacing")
    before = made.explain(number, 0, 5)
    made.settings["spacing"].size = "high"
    assert made.explain(number, 0, 5) != before
    made.settings["spacing"].size = "typical"
    made.options = (PLUM, APPLE)
    assert made.explain(number, 0, 5) != before
