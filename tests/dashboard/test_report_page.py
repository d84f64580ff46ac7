"""The page Report: what is typed is kept, the document follows the plan, files are handed over."""

import json
import shutil
from html import unescape

import gpxpy
import pytest

from dashboard.keeping.opened import Opened
from dashboard.pages.report import Report
from dashboard.pages.report_files import LISTS, PEGS, content
from dashboard.report.brief import BRIEF_FILE, read_brief
from dashboard.session import Session
from tests.dashboard.report_reader import read
from tests.model.demo import DEMO


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
    page = Report(session)
    page.refresh()
    return page


def shown(sheet):
    frame = sheet.frame.object
    return unescape(frame[frame.index('srcdoc="') + 8 : frame.rindex('"></iframe>')])


def test_the_document_stands_in_a_frame_in_which_nothing_runs(sheet):
    assert " sandbox " in sheet.frame.object
    seen = read(shown(sheet))
    assert "Sorrelhay" in seen.headings[0][1]
    assert not any("href" in one for one in seen.attributes("a"))


def test_what_is_typed_is_in_the_document_and_outlives_the_session(sheet, session, land):
    sheet._told("prepared_for", "Ann <i>& Bob</i>")
    sheet._told("paper", "Letter")
    sheet._told("calendar", False)
    html = shown(sheet)
    assert "Ann <i>& Bob</i>" in read(html).text
    assert "size: letter" in html
    assert "Calendar" not in [title.partition(". ")[2] for _level, title in read(html).headings]
    kept = read_brief(session.copy.own)
    assert (kept.prepared_for, kept.paper) == ("Ann <i>& Bob</i>", "Letter")
    again = Report(Session.begun(land, session.copy.visitor))
    assert again.brief.prepared_for == "Ann <i>& Bob</i>"
    assert (session.copy.own / BRIEF_FILE).is_file()


def test_the_document_follows_the_weights(sheet, session):
    before = shown(sheet)
    session.study.equal_weights()
    sheet.refresh()
    after = shown(sheet)
    assert before != after
    assert "Every factor weighs the same." in read(after).text


def test_nothing_is_reckoned_twice(sheet, session, monkeypatch):
    monkeypatch.setattr(session, "run", lambda *_: pytest.fail("reckoned again"))
    sheet.refresh()
    assert Report(session).found is not None


def test_without_a_plan_the_page_says_so_and_leads_to_it(session):
    session.copy.remove("placement.csv")
    page = Report(session)
    page.refresh()
    assert any("Nothing is placed yet" in one.get("label", "") for one in page.head.fields)
    assert content(page.found, "placement.csv") is None
    assert len(content(page.found, "pegs.csv").splitlines()) == 1 + len(session.study.site.spots)
    page._told("go", "plan")
    assert session.page == "plan"


def test_every_file_is_handed_over_and_can_be_read(sheet, monkeypatch):
    handed = {}
    monkeypatch.setattr(sheet.head, "download", handed.__setitem__)
    for name in (*PEGS, *LISTS, "report.html"):
        sheet._told("file", name)
    assert list(handed) == [*PEGS, *LISTS, "report.html"]
    trees = sheet.found.trees
    points = gpxpy.parse(handed["pegs.gpx"].decode()).waypoints
    assert [point.name for point in points] == [tree.name for tree in trees]
    assert len(json.loads(handed["pegs.geojson"])["features"]) == len(trees)
    assert handed["pegs.gpkg"].startswith(b"SQLite format 3")  # GeoPackage 1.3, 1.1.1: SQLite
    assert handed["calendar.ics"].startswith(b"BEGIN:VCALENDAR")
    assert handed["report.html"].startswith(b"<!DOCTYPE html>")
    sheet._told("file", "../../secret")
    assert len(handed) == len(PEGS) + len(LISTS) + 1


def test_feet_are_the_visitors_setting(sheet, session):
    sheet._told("feet", True)
    assert session.feet
    assert sheet.brief.feet
