"""The Plan page keeps what it places, says what a move costs, and reads all of it back.

Trees and order are the demo's invented ones; what comes of them is no evidence that the rules
are right.
"""

import shutil

import icalendar
import pytest

from dashboard.keeping.opened import Opened
from dashboard.pages.plan import Plan, change_words
from dashboard.session import Session
from model.planting.year_after.standing import standing_trees
from tests.model.demo import DEMO

ORDER = "count,species,cultivar,rootstock,use,note\n2,apple,,,dessert,\n1,quince,,,,\n"


@pytest.fixture(scope="module")
def land(tmp_path_factory):
    folder = tmp_path_factory.mktemp("site") / "land"
    shutil.copytree(DEMO, folder)
    (folder / "order.csv").write_text(ORDER, encoding="utf-8")
    (folder / "placement.csv").unlink()
    return Opened(folder)


@pytest.fixture
def session(land, tmp_path, monkeypatch):
    monkeypatch.setenv("TREESTEAD_DATA", str(tmp_path))
    return Session.begun(land)


@pytest.fixture
def page(session):
    return Plan(session)


@pytest.fixture
def placed(page):
    page._said("pegs_only", True)
    page._said("place", "place")
    assert len(page.work.trees) == 3
    return page


def words_of(form):
    return " ".join(field.get("label", "") for field in form.fields)


def test_without_a_plan_the_page_says_what_to_do(page):
    assert "press Place the order" in words_of(page.told)
    assert "ask for the plans of buried services" in words_of(page.told)
    assert not page.map.trees


def test_lines_are_added_counted_and_removed_in_the_file(page):
    page._said("wish", "gage|||")
    page._said("order", "line")
    page._lined("more", "2")
    assert "2,gage,,,," in (page.session.folder / "order.csv").read_text(encoding="utf-8")
    page._lined("drop", "2")
    assert "gage" not in (page.session.folder / "order.csv").read_text(encoding="utf-8")


def test_a_placed_order_is_found_by_other_pages_and_after_a_reload(placed, land):
    standing = standing_trees(placed.study, placed.session.folder)
    assert [tree.place for tree in standing] == [tree.place for tree in placed.work.trees]
    again = Plan(Session.begun(land, placed.session.copy.visitor))
    assert [t.place for t in again.work.trees] == [t.place for t in placed.work.trees]
    assert [t.partners for t in again.work.trees] == [t.partners for t in placed.work.trees]
    assert again.work.kept.placement.proven
    assert again.work.outdated() == []
    assert again.work.settings.pegs_only


def test_a_plan_is_out_of_date_once_weights_or_order_have_changed(placed):
    assert placed.work.outdated() == []
    placed.study.move_weight("spacing", 0.7)
    placed._lined("more", "0")
    assert placed.work.outdated() == ["weights", "order"]
    assert "Out of date: the weights and the order changed" in words_of(placed.told)


def test_a_drag_says_the_loss_before_it_is_let_go_and_can_be_kept_and_undone(placed):
    tree = placed.work.trees[0]
    placed._acted("try", 1, tree.x + 6, tree.y + 6)
    trial, kept = placed.map.trial, placed.work.kept
    assert trial["id"] == 1
    assert "points of 100" in trial["words"][0] or "it cannot stand there" in trial["words"][0]
    assert placed.work.kept is kept
    there = next(int(one[0]) for one in _choices(placed, "there", 1) if one[0])
    placed._said("there", str(there))
    placed._acted("keep", 0, 0.0, 0.0)
    assert placed.work.trees[0].place == there
    assert placed.work.kept.stays == {there}
    assert "no longer the best placement" in words_of(placed.told)
    assert f"from {tree.name} to {placed.work.trees[0].name}" in words_of(placed.told)
    placed._said("step", "undo")
    assert placed.work.trees[0] == tree


def _choices(page, name, tree):
    page._acted("choose", tree, 0.0, 0.0)
    return next(f for f in page.tree.fields if f.get("name") == name)["choices"]


def test_a_blocked_hole_gives_the_least_change_and_the_caution(placed):
    before = placed.work.trees
    placed._acted("choose", 3, 0.0, 0.0)
    assert "stop digging" in words_of(placed.tree)
    placed._said("block", "block")
    after = placed.work.trees
    assert before[2].place not in {tree.place for tree in after}
    assert [tree.place for tree in after[:2]] == [tree.place for tree in before[:2]]
    told = words_of(placed.told)
    assert f"from {before[2].name} to {after[2].name}" in told
    assert "stop digging" in told
    assert placed.map.ghosts
    assert placed.map.blocked == [[before[2].x, before[2].y]]
    placed._said("step", "undo")
    assert placed.work.trees == before
    assert not placed.work.kept.blocked


def test_lists_and_files_follow_the_plan_and_its_prices(placed):
    below = placed.below
    below.tabs.open = "list"
    assert "Together" in below.text.object
    below._told("price hose", "2.5")
    below._told("price hose", "-1")
    assert "expected a price from 0" in placed.session.said
    assert "hose,2.5,EUR" in (placed.session.folder / "prices.csv").read_text(encoding="utf-8")
    events = icalendar.Calendar.from_ical(below.file("calendar.ics")).walk("VEVENT")
    assert len(events) == len(below.made.calendar) > 10
    assert below.file("placement.csv").startswith(b"spot,x_m,y_m")
    assert below.file("shopping_list.csv").startswith(b"item,trees,quantity")


def test_a_wish_that_cannot_be_met_is_said_with_what_to_give_up(placed):
    placed._said("budget", "30")
    placed._said("place", "place")
    assert "Not met:" in words_of(placed.told)
    placed._said("bee_range", "far")
    assert "expected a number" in placed.session.said


def test_words_of_a_file_stay_words(placed):
    assert "<script" not in placed.below.text.object
    placed.session.keep("placement.csv", "spot,x_m,y_m\n<script>,1,1\n")
    placed.session.memory.clear()
    again = Plan(placed.session)
    assert "cannot be read" in words_of(again.told)


def test_a_change_is_said_in_points():
    assert change_words(-0.123) == "12 points of 100 less"
    assert change_words(float("nan")) == "it cannot stand there"
