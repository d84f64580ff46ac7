"""The page of years shows what the growth of the trees says, for every choice."""

import numpy as np
import pytest

from dashboard.pages.years import Years
from dashboard.session import Session
from model.growth import stand_of
from model.growth.year import Growth


@pytest.fixture
def years(study):
    page = Years(Session(study))
    page.refresh()
    return page


def move(page, year, settled=True):
    page.clock._handle_msg({"year": year, "settled": settled})


def radii(page, layer="crowns"):
    return np.array(page.map.layers[layer]["radius"])


def test_the_plan_of_the_folder_is_shown_first(years, study):
    assert years.choices.trees == "placement"
    assert radii(years).size == 5
    labels = {tree.label for tree in years.growth.stand.shown}
    assert labels <= {option.cultivar for option in study.options}


def test_a_moved_year_moves_crowns_sentence_table_and_side(years):
    move(years, 0)
    before = radii(years), years.said.object, years.table.object
    scene = years.side_view.layers["scene"]["ys"]
    move(years, 12)
    assert (radii(years) > before[0] + 0.5).all()
    assert years.said.object != before[1]
    assert years.table.object != before[2]
    assert years.side_view.layers["scene"]["ys"] != scene
    assert "Year 12" in years.clock.said


def test_a_drag_moves_the_pictures_and_the_words_follow_when_it_settles(years):
    move(years, 3)
    before = radii(years)
    move(years, 20, settled=False)
    assert (radii(years) > before).all()
    assert "Year 3" in years.clock.said
    move(years, 20)
    assert "Year 20" in years.clock.said
    assert "Year 20" in years.said.object


def test_a_wrong_year_from_the_page_changes_nothing(years):
    move(years, 7)
    for wrong in ("9", None, float("nan")):
        move(years, wrong)
    assert years.year == 7
    move(years, 1e9)
    assert years.year == years.growth.last


def test_strong_growth_is_wider_than_slow(years):
    move(years, 25)
    years.choices.growth_choice.value = 0
    slow = radii(years)
    years.choices.growth_choice.value = 2
    assert (radii(years) > slow).all()


def test_the_chosen_tree_stands_at_the_chosen_place(years, study):
    study.place = study.ground.places.cells + 5
    years.choices.tree_choice.value = "chosen"
    assert years.map.layers["crowns"]["x"].tolist() == [study.ground.places.x[study.place]]


def test_the_best_at_every_peg_are_the_studys_leaders(years, study):
    years.choices.tree_choice.value = "leaders"
    pegs = study.leaders.option[study.ground.places.cells :]
    assert radii(years).size == (pegs >= 0).sum()


def test_the_hour_moves_the_shade(years):
    years.choices.moment._handle_msg({"id": "hour", "value": 8.0, "settled": True})
    morning = years.map.layers["shade"]["image"][0].copy()
    years.choices.moment._handle_msg({"id": "hour", "value": 17.0, "settled": True})
    assert not np.allclose(morning, years.map.layers["shade"]["image"][0], equal_nan=True)
    assert "17:00" in years.said.object


def test_a_tap_looks_from_there_towards_the_trees(years):
    years._tapped(60.0, 40.0)
    assert (years.eye.x, years.eye.y) == (60.0, 40.0)
    assert "where you tapped" in years.seen.object
    years.choices.moment._handle_msg({"id": "bearing", "value": 90, "settled": True})
    assert years.eye.bearing == 90


def test_the_window_says_how_much_of_the_view_is_covered(years):
    move(years, 30)
    view, share = next(one for one in years.now.covered if one[0].label == years.eye.view.label)
    assert f"{100 * share:.0f} %" in years.side_view.layers["window_words"]["text"][0]
    assert view.wish == "keep"


def test_crowns_that_meet_are_marked_and_their_year_is_said(years, study):
    places = study.ground.places
    first = years.growth.stand.shown[0]
    near = places.nearest(first.x + 3.0, first.y)
    second = type(first)(
        "The other", "", float(places.x[near]), float(places.y[near]), near, first.option
    )
    years.growth = Growth(study, stand_of(study, (first, second)), 1)
    years.look()
    move(years, 30)
    met = next(m for m in years.growth.meetings if m.second >= 0)
    assert f"meet in year {int(np.ceil(met.year))}" in years.said.object
    assert years.map.layers["met"]["x"]
    move(years, 0)
    assert not years.map.layers["met"]["x"]
    assert "Next: " in years.said.object


def test_a_folder_without_a_plan_says_what_to_do(study, monkeypatch):
    monkeypatch.setattr(Session, "folder", None)
    page = Years(Session(study))
    page.choices.trees = "placement"
    page.refresh()
    assert "Plan page" in page.said.object


def test_a_link_leads_to_the_same_year(years, study):
    move(years, 17)
    years.choices.tree_choice.value = "leaders"
    other = Years(Session(study))
    assert other.follow(years.query()) == []
    assert other.query() == years.query()
    assert "year was left out" in other.follow({"year": "soon"})[0]


def test_words_of_the_survey_are_text_and_nothing_else(years, monkeypatch):
    evil = "<img src=x onerror=alert(1)>"
    stand = years.growth.stand
    object.__setattr__(stand, "labels", (evil,) * len(stand.labels))
    years.draw()
    assert "<img" not in years.said.object + years.table.object
