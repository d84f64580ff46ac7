"""Review: what is typed is checked and kept, the trees follow, and every step goes back.

What comes of the demo's trees is a lesson of its invented observations, and no evidence that the
rules are right.
"""

import shutil
from base64 import b64encode
from types import SimpleNamespace

import pytest

from dashboard.keeping.opened import Opened
from dashboard.pages.review import Review
from dashboard.pages.review_watch_list import watch_list_page, watch_rows
from dashboard.plots.review_intervals import picture
from dashboard.session import Session
from model.planting.year_after.observations import read_observations
from tests.model.demo import DEMO

SOUTH = DEMO.parent / "sallowbend"
DUG = {"spot": "Hollow", "what": "soil_depth", "value": "40", "date": "2027-11-02"}


@pytest.fixture(scope="module")
def land(tmp_path_factory):
    folder = tmp_path_factory.mktemp("site") / "land"
    shutil.copytree(DEMO, folder)
    return Opened(folder)


@pytest.fixture
def session(land, tmp_path, monkeypatch):
    monkeypatch.setenv("TREESTEAD_DATA", str(tmp_path))
    return Session.begun(land)


@pytest.fixture
def sheet(session):
    return Review(session)


def typed(sheet, **fields):
    for name, value in fields.items():
        sheet._told(name, value)


def card(sheet, spot):
    return next(one for one in sheet.cards.cards if one["key"] == spot)


def field(sheet, name):
    return next(one for one in sheet.form.fields if one.get("name") == name)


def kept(sheet):
    return read_observations(sheet.session.folder)


def test_one_card_a_tree_and_those_to_be_moved_first(sheet):
    assert len(sheet.cards.cards) == len(sheet.trees) == 5
    assert [one["advice"] for one in sheet.cards.cards] == ["move", "wait", "keep", "keep", "keep"]
    first = sheet.cards.cards[0]
    assert first["told"] == "Move to Screen"
    assert "25 Oct 2027 to 15 Mar 2028" in first["lines"][1]
    assert first["rows"][0]["cells"][:3] == ["Sun", "9.6 h", "6.4 h"]
    assert any("network operator" in note for note in first["notes"])


def test_a_move_is_an_arrow_from_the_old_peg_to_the_new(sheet):
    moves, places = sheet.drawing.layers["moves"], sheet.study.ground.places
    at = {name: places.cells + number for number, name in enumerate(places.spots)}
    assert len(moves["x0"]) == 2
    assert moves["line_dash"] == ["solid", "dashed"]
    assert moves["x0"][0] == pytest.approx(places.x[at["Lane corner"]], abs=2.3)
    assert moves["y1"][0] == pytest.approx(places.y[at["Screen"]], abs=2.3)


def test_what_is_typed_is_kept_and_judged_and_goes_back_with_undo(sheet):
    before = len(kept(sheet))
    typed(sheet, spot="Copse edge", what="sun_hours", value="11", date="2027-11-02", do="add")
    assert len(kept(sheet)) == before + 1
    assert card(sheet, "Copse edge")["rows"][0]["cells"][0] == "Sun"
    typed(sheet, do="undo")
    assert len(kept(sheet)) == before


def test_faults_stand_beside_their_fields_and_nothing_is_kept(sheet):
    before = kept(sheet)
    typed(sheet, spot="Hollow", what="sun_hours", value="25", date="2027-02-30", do="add")
    assert "expected sun_hours from 0 to 24" in field(sheet, "value")["fault"]
    assert "expected a date" in field(sheet, "date")["fault"]
    assert field(sheet, "spot")["fault"] == ""
    assert field(sheet, "value")["value"] == "25"
    assert kept(sheet) == before


def test_the_same_thing_seen_twice_on_a_day_is_sent_to_the_list(sheet):
    typed(sheet, **DUG, do="add")
    typed(sheet, **DUG, do="add")
    assert "already" in field(sheet, "date")["fault"]


def test_a_row_is_mended_and_removed(sheet):
    before = kept(sheet)
    typed(sheet, pick="0")
    assert field(sheet, "value")["value"] == f"{before[0].value:g}"
    typed(sheet, value="9.5", do="add")
    assert kept(sheet)[0].value == 9.5
    assert kept(sheet)[1:] == before[1:]
    typed(sheet, pick="0")
    typed(sheet, do="remove")
    assert kept(sheet) == before[1:]


def test_a_file_takes_the_place_of_the_list_when_it_has_no_fault(sheet):
    before = kept(sheet)
    bad = b"spot,date,what,value\nNowhere,2027-10-10,sun_hours,6\n"
    good = b"spot,date,what,value\nHollow,2027-10-10,sun_hours,6\n"
    typed(sheet, upload={"name": "o.csv", "size": len(bad), "data": b64encode(bad).decode()})
    assert kept(sheet) == before
    assert any("Nowhere" in one["label"] for one in sheet.form.fields if one["kind"] == "note")
    typed(sheet, upload={"name": "o.csv", "size": len(good), "data": b64encode(good).decode()})
    assert [one.spot for one in kept(sheet)] == ["Hollow"]
    typed(sheet, do="undo")
    assert kept(sheet) == before


def test_the_survey_takes_what_was_seen_once_and_gives_it_back(sheet, session):
    patches = session.study.site.of_kind("soil_patch")
    before = kept(sheet)
    notes = [one["label"] for one in sheet.form.fields if one["kind"] == "note"]
    assert any("pH of Lower clay: 5.7 to 5.9" in said for said in notes)
    typed(sheet, survey="take")
    taken = session.study.site.of_kind("soil_patch")
    assert [one.number("ph") for one in taken] != [one.number("ph") for one in patches]
    again = Review(session)
    assert again.made.corrections == ()
    assert any(one.in_survey for one in kept(again))
    typed(again, survey="back")
    given = session.study.site.of_kind("soil_patch")
    assert [one.number("ph") for one in given] == [one.number("ph") for one in patches]
    assert kept(Review(session)) == before


def test_weigh_is_opened_where_a_tree_might_go(sheet, session):
    sheet.cards._handle_msg({"id": "there", "key": "Lane corner"})
    assert session.page == "weigh"
    assert session.study.ground.places.name(session.study.place) == "peg Screen"
    assert session.study.options[session.study.option].cultivar == "Egremont Russet"


def test_without_a_plan_the_page_says_so_and_opens_plan(session):
    session.copy.begun()
    session.copy.remove("placement.csv")
    sheet = Review(session)
    assert sheet.cards.cards == []
    assert "Plan page" in sheet.empty.fields[1]["label"]
    typed(sheet, go="plan")
    assert session.page == "plan"


def test_without_observations_the_watch_list_is_open(session):
    session.keep("observations.csv", "spot,date,what,value\n")
    sheet = Review(session)
    folds = {one["label"]: one["open"] for one in sheet.form.fields if one["kind"] == "fold"}
    assert folds["What to watch for, and how"]
    assert all("the map stands" in one["reason"] for one in sheet.cards.cards)


def test_in_the_south_one_watches_the_southern_summer():
    assert watch_rows(52.0)[0][1] == "June and September"
    assert watch_rows(-35.0)[0][1] == "December and March"


def test_words_of_others_cannot_break_the_page_to_print(session):
    tree = SimpleNamespace(spot="<script>alert(1)</script>", option=0)
    assert "<script>" not in watch_list_page(session.study, [tree])


def test_a_picture_says_in_words_what_it_shows(sheet):
    lane = next(one for one in sheet.made.trees if one.tree.spot == "Lane corner")
    drawn = picture(lane.evidence[0])
    assert drawn["said"].startswith("Sun: the map said 9.6 ± ")
    assert [row["label"] for row in drawn["rows"]] == ["The map said", "Was seen", "Now believed"]
    said, was, now = drawn["rows"]
    assert was["at"] < now["at"] < said["at"]
    assert all(0 <= row["from"] <= row["at"] <= row["to"] <= 100 for row in drawn["rows"])


def test_lengths_are_read_in_feet_where_one_reads_in_feet(session):
    session.feet = True
    assert card(Review(session), "Lane corner")["rows"][1]["cells"][2] == "9 in"
