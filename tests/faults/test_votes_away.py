"""The votes' store is away: phones and the teacher are told in a sentence, and nothing is lost."""

import sqlite3
from contextlib import closing, contextmanager

import pytest

from dashboard.join.subject import Subject
from dashboard.join.voting import Voting
from dashboard.keeping.opened import Opened
from dashboard.keeping.working_copy import WorkingCopy
from dashboard.pages.group import Group
from dashboard.session import Session
from dashboard.votes.ballots import Ballots
from tests.dashboard.phones import Phone, door, voting
from tests.model.small_site import spot, study

pytestmark = pytest.mark.slow

SORRY = "The vote cannot be reached: "


@pytest.fixture(scope="module")
def made():
    return study(spots=[spot("Here", 40, 40)])


@pytest.fixture(scope="module")
def served(made, tmp_path_factory):
    file = tmp_path_factory.mktemp("votes") / "ballots.sqlite3"
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("dashboard.votes.tables.PATIENCE", 0.1)
        votes = voting(made, f"sqlite:///{file}")
    with door(votes) as port:
        yield votes, port, file


@pytest.fixture
def key(served, made):
    return served[0].store.new_session(Subject.chosen(made, served[2].parent).text)


@contextmanager
def locked(file):
    """Another program that holds the file."""
    with closing(sqlite3.connect(file, isolation_level=None)) as other:
        other.execute("BEGIN EXCLUSIVE")
        yield
        other.execute("ROLLBACK")


def test_a_phone_is_told_that_its_ballot_was_not_kept_and_sends_it_again(served, key):
    votes, port, file = served
    phone = Phone(port)
    assert phone.join(key.code, "Pears").status == 303
    assert phone.send(key.code, "Pears", **{"family-place": "90"}).said.startswith("Sent at ")
    kept = votes.store.ballots(key.code)
    with locked(file):
        script = phone.send(key.code, "Pears", **{"family-place": "1"})
        page = phone.post("/join/vote", {"code": key.code, "group": "Pears", "round": "1"})
    for answer in (script.said, page.text):
        assert f"{SORRY}another program holds its ballots. Nothing was kept" in answer
        assert "Sent at" not in answer
    assert votes.store.ballots(key.code) == kept
    assert phone.send(key.code, "Pears", **{"family-place": "1"}).said.startswith("Sent at ")
    assert votes.store.ballots(key.code) != kept


def test_a_damaged_file_is_said_and_left_as_it_is(tmp_path):
    file = tmp_path / "ballots.sqlite3"
    file.write_bytes(b"no database, but a letter " * 400)
    before = file.read_bytes()
    with pytest.raises(ValueError, match=f"{SORRY}its ballots' file is damaged"):
        Ballots(f"sqlite:///{file}")
    assert file.read_bytes() == before


def test_a_place_that_cannot_hold_a_file_is_said(tmp_path):
    (tmp_path / "taken").write_text("a file where a folder is wanted", encoding="utf-8")
    with pytest.raises(ValueError, match=f"{SORRY}its ballots' file cannot be opened"):
        Ballots(f"sqlite:///{tmp_path}/taken/ballots.sqlite3")


@pytest.fixture
def group(served, made, tmp_path, monkeypatch):
    """The teacher's page over the served votes."""
    votes, _port, file = served
    monkeypatch.setenv("TREESTEAD_DATA", str(tmp_path))
    monkeypatch.setattr(Voting, "of", lambda _opened: votes)
    monkeypatch.setattr(Group, "_base", lambda _page: "http://127.0.0.1:1")
    session = Session(made, Opened(file.parent), WorkingCopy(file.parent))
    return Group(session)


def test_the_teacher_keeps_the_key_while_the_store_is_away(served, group, monkeypatch):
    votes, _port, file = served
    monkeypatch.setattr(group.session, "run", lambda *_work: None)
    group.begin()
    held = group.held
    with locked(file):
        group.steer("freeze")
        assert group.session.said.startswith(SORRY)
        group.end()
        assert group.session.said.startswith(SORRY)
    assert group.held == held
    assert votes.store.session(held.code).state == "open"
    group.steer("freeze")
    assert votes.store.session(held.code).state == "frozen"
    group.end()
    assert group.held is None


def test_the_teacher_is_told_that_a_vote_could_not_be_begun(served, group):
    with locked(served[2]):
        group.begin()
    assert group.session.said.startswith(SORRY)
    assert group.held is None
