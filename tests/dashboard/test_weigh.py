"""The page moves the study, and what it shows is what the study says."""

import numpy as np
import pytest

from dashboard.pages.weigh import Weigh
from dashboard.pages.weights import TRADE_OFF
from dashboard.session import Session


def shares(weigh):
    rows = weigh.weights.sliders.rows
    return {row["id"]: row["value"] for row in rows if row["kind"] == "factor"}


def verdict(weigh):
    return weigh.here.sentence.object.partition('<p class="said">')[2]


def move(weigh, slider, value, settled=True):
    weigh.weights.sliders._handle_msg({"id": slider, "value": value, "settled": settled})


def test_a_moved_weight_moves_map_ranking_sentence_and_chart(weigh, study):
    before = {
        "map": weigh.ground.drawing.layers["score"]["image"][0].copy(),
        "bars": [row["share"] for row in weigh.here.merit.rows],
        "sentence": weigh.here.sentence.object,
        "today": weigh.panels.tipping.drawing.layers["today"]["x0"],
    }
    move(weigh, "climate_fit", 70)
    after = weigh.ground.drawing.layers["score"]["image"][0]
    expected = study.ground.places.grid(study.leaders.score.astype(np.float32)) * 100
    np.testing.assert_allclose(after, expected, rtol=1e-5)
    assert not np.allclose(after, before["map"], equal_nan=True)
    assert [row["share"] for row in weigh.here.merit.rows] != before["bars"]
    assert weigh.here.sentence.object != before["sentence"]
    assert weigh.panels.tipping.drawing.layers["today"]["x0"] == [pytest.approx(70)]


def test_the_others_follow_so_that_shares_stay_100(weigh):
    before = shares(weigh)
    move(weigh, "spacing", 50)
    after = shares(weigh)
    assert sum(after.values()) == pytest.approx(100, abs=0.4)
    assert after["spacing"] == 50
    assert after["vigour"] / after["access"] == pytest.approx(
        before["vigour"] / before["access"], rel=0.02
    )


def test_a_family_moves_its_factors_together(weigh, study):
    before = study.weights.copy()
    move(weigh, "family:room", 80)
    room = study.members("family:room")
    assert study.weights[room].sum() == pytest.approx(0.8)
    np.testing.assert_allclose(
        study.weights[room] / study.weights[room].sum(), before[room] / before[room].sum()
    )


def test_the_mark_under_a_slider_is_where_the_leader_stays(weigh, study):
    rows = weigh.weights.sliders.rows
    row = next(r for r in rows if r["stay"] and r["stay"][0] > 0 and r["kind"] == "factor")
    low, high = row["stay"]
    leader = study.here().order[0]
    nearly = 0.01 * (high - low)
    for share, stays in ((low - nearly, False), (low + nearly, True), (high - nearly, True)):
        study.move_weight(row["id"], max(share, 0.0) / 100)
        assert (study.here().order[0] == leader) is stays


def test_a_slider_that_cannot_change_the_lead_says_so(weigh, study):
    for row in weigh.weights.sliders.rows:
        if row["id"] == TRADE_OFF:
            continue
        tip = study.tipping(row["id"])
        fixed = tip.below < 0 and tip.above < 0
        assert ("cannot change it here" in row["note"]) is fixed


def test_the_trade_off_reaches_the_study(weigh, study):
    move(weigh, TRADE_OFF, -6)
    assert study.trade_off == -6


def test_undo_takes_back_a_whole_drag(weigh, study):
    before, sentence = study.weights.copy(), verdict(weigh)
    for value in (30, 40, 50, 60):
        move(weigh, "spacing", value, settled=False)
    move(weigh, "spacing", 60)
    weigh.take_back()
    np.testing.assert_allclose(study.weights, before)
    assert verdict(weigh) == sentence


def test_every_choice_can_be_taken_back(weigh, study):
    before = weigh.query()
    weigh.ground.layer.value = "views"
    weigh.ground.option.value = 4
    weigh._tapped(50.0, 50.0)
    weigh._factor_chosen(5)
    weigh.weights.equal.clicks += 1
    move(weigh, "family:people", 60)
    weigh.panels.curve.knots._handle_msg({"id": "y1", "value": 0.3, "settled": True})
    for _ in range(7):
        weigh.take_back()
    assert weigh.query() == before
    assert weigh.take_back_button.disabled


def test_a_tap_chooses_the_place(weigh, study):
    places = study.ground.places
    weigh._tapped(places.x[-1] + 0.3, places.y[-1])
    assert study.place == places.x.size - 1
    assert places.spots[-1] in weigh.here.sentence.object
    assert weigh.ground.drawing.layers["chosen"]["x"].tolist() == [places.x[-1]]
    assert weigh.ground.place.value == study.place


def test_a_tap_where_nothing_can_stand_says_so(weigh, study):
    house = next(f for f in study.site.features if f.name == "House").geometry.centroid
    weigh._tapped(house.x, house.y)
    assert "nothing on the short list can stand here" in weigh.here.sentence.object
    move(weigh, "spacing", 30)
    weigh._tapped(-500.0, -500.0)
    assert "outside" in weigh.here.sentence.object


def test_a_knot_changes_what_a_figure_is_worth(weigh, study):
    weigh._factor_chosen([f.name for f in study.factors].index("spacing"))
    before = study.desirabilities.copy()
    weigh.panels.curve.knots._handle_msg({"id": "y0", "value": 0.9, "settled": True})
    assert study.settings["spacing"].curve.y[0] == 0.9
    assert not np.array_equal(study.desirabilities, before, equal_nan=True)


def test_knots_keep_their_order(weigh, study):
    weigh._factor_chosen([f.name for f in study.factors].index("spacing"))
    weigh.panels.curve.knots._handle_msg({"id": "x0", "value": 11.0, "settled": True})
    x = study.settings["spacing"].curve.x
    assert (np.diff(x) > 0).all()


def test_every_figure_can_be_asked_why(weigh, study):
    for number, factor in enumerate(study.factors):
        weigh._factor_chosen(number)
        said = weigh.panels.curve.head.object
        assert "Sources" in said
        assert said.count("<li>") == len(factor.sources)


def test_a_weight_set_is_taken_and_named(weigh, study):
    weigh.weights.sets.value = "School"
    school = next(s for s in study.weight_sets if s.name == "School")
    assert shares(weigh)["access"] == pytest.approx(100 * school.weights["access"], abs=0.1)
    assert study.trade_off == school.trade_off
    assert school.about in weigh.weights.said.object
    move(weigh, "spacing", 50)
    assert weigh.weights.sets.value == ""


def test_a_link_leads_to_the_same_page(weigh, study):
    move(weigh, "access", 55)
    weigh._tapped(40.0, 80.0)
    made, sentence = weigh.query(), verdict(weigh)
    study.equal_weights()
    study.place = 0
    other = Weigh(Session(study))
    assert other.follow(made) == []
    assert other.query() == made
    assert verdict(other) == sentence


def test_people_s_words_are_text_and_nothing_else(weigh, study, monkeypatch):
    evil = "<img src=x onerror=alert(1)>"
    monkeypatch.setattr(study, "verdict", lambda: evil)
    monkeypatch.setattr(study, "explain", lambda *_: evil)
    monkeypatch.setattr(study, "unjudged", ((evil, evil),))
    page = Weigh(Session(study))
    page.weights.say(evil)
    panes = (page.here.sentence, page.panels.curve.head, page.weights.said)
    assert all("<img" not in pane.object for pane in panes)
    unjudged = [
        p.object for p in page.weights.view if "Not judged" in str(getattr(p, "object", ""))
    ]
    assert unjudged
    assert "<img" not in unjudged[0]


def test_shadows_are_drawn_for_the_day_and_hour_that_are_asked_for(weigh, study):
    moment = weigh.ground.moment
    assert not moment.view.visible
    weigh.ground.layer.value = "shade"
    assert moment.view.visible
    moment.day.value, moment.hour.value = 355, 15.0
    drawn = weigh.ground.drawing.layers["score"]["image"][0]
    expected = 100 * study.ground.places.grid(study.map_layer().values)
    assert study.day == 355
    assert np.allclose(drawn, expected, equal_nan=True)
    assert "21 December, 15:00" in moment.said.object
    weigh.take_back()
    assert study.hour == 9.0


def test_a_link_carries_the_moment_of_the_shadows(weigh, study):
    study.param.update(layer="shade", day=80, hour=16.5)
    words = weigh.query()
    study.param.update(layer="best", day=172, hour=9.0)
    assert weigh.follow(words) == []
    assert (study.layer, study.day, study.hour) == ("shade", 80, 16.5)
    assert "moment was left out" in weigh.follow({"moment": "400@9"})[0]


def test_what_to_try_is_said_until_something_was_tried(weigh):
    assert "Try it" in weigh.here.sentence.object
    move(weigh, "spacing", 50)
    assert "Try it" not in weigh.here.sentence.object


def test_the_trade_off_touched_last_is_what_the_chart_runs_over(weigh, study):
    move(weigh, TRADE_OFF, -3)
    assert weigh.touched == TRADE_OFF
    today = weigh.panels.tipping.drawing.layers["today_words"]["text"][0]
    assert today.strip() == "today \N{MINUS SIGN}3.0"
    lines = weigh.panels.tipping.drawing.layers["scores"]
    last = [ys[-1] for ys in lines["ys"]]
    study.trade_off = 1.0
    assert max(last) == pytest.approx(100 * np.nanmax(study.here().score[study.here().allowed]))


def test_arrow_keys_move_the_place_cell_by_cell(weigh, study):
    weigh._tapped(50.0, 50.0)
    places, before = study.ground.places, study.place
    weigh.ground.keys._handle_msg({"east": 1, "north": 0})
    assert places.x[study.place] == pytest.approx(places.x[before] + places.cell)
    weigh.ground.keys._handle_msg({"east": 0, "north": -5})
    assert places.y[study.place] == pytest.approx(places.y[before] - 5 * places.cell)
    kept = study.place
    weigh.ground.keys._handle_msg({"east": 10**6, "north": "far"})
    assert study.place == kept


def test_lengths_are_in_feet_for_those_who_want_feet(study):
    session = Session(study)
    session.feet = True
    weigh = Weigh(session)
    number = [factor.name for factor in study.factors].index("spacing")
    row = next(row for row in weigh.here.bars.rows if row["id"] == "spacing")
    assert " ft" in row["figure"] or " in" in row["figure"]
    note = next(r["note"] for r in weigh.weights.sliders.rows if r["id"] == "spacing")
    assert " m" not in note.replace(" may", "")
    weigh._factor_chosen(number)
    assert " m " not in weigh.panels.curve.head.object.partition("<p>")[2]
