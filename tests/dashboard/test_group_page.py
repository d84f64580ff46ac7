"""Promises of the teacher's page and the wall, without a browser."""

import asyncio
import csv
import io
import stat
from concurrent.futures import ThreadPoolExecutor

import numpy as np
import pandas as pd
import pytest

from dashboard.join.voting import Voting
from dashboard.keeping.working_copy import WorkingCopy
from dashboard.pages import group as group_page
from dashboard.pages.group import Group
from dashboard.pages.wall import Wall
from dashboard.session import Session
from dashboard.votes.ballots import Ballots, new_token
from model.group.agreement_words import all_points
from model.group.ballot import NAMES, Ballot
from tests.dashboard.phones import Kept
from tests.model.demo import DEMO

MARKUP = "<b>bold</b>"
FORMULA = '=HYPERLINK("http://elsewhere.example")'


def ballot(group: str, lift: str = "sunlight", by: float = 30.0, voted: int = 1) -> Ballot:
    return Ballot(group, dict.fromkeys(NAMES, 1.0) | {lift: by}, -1.0, round=voted)


@pytest.fixture
def teacher(study, tmp_path, monkeypatch):
    monkeypatch.setenv("TREESTEAD_BALLOTS", f"sqlite:///{tmp_path}/ballots.sqlite3")
    monkeypatch.setenv("TREESTEAD_DATA", str(tmp_path))
    monkeypatch.setattr(group_page, "opened_door", lambda _votes: 5999)
    session = Session(study, Kept(study), WorkingCopy(DEMO))
    session.page = "group"
    return Group(session)


@pytest.fixture
def started(teacher):
    teacher.begin()
    return teacher


def cast(teacher, *groups, voted=1, by=30.0):
    for number, name in enumerate(groups):
        lift = NAMES[1 + 4 * number % 16]
        teacher.voting.store.cast(teacher.held.code, new_token(), ballot(name, lift, by, voted))
    teacher.glance()


def test_before_a_vote_the_page_says_what_place_it_would_be_about(teacher, study):
    name = study.ground.places.name(study.place)
    assert name in teacher.head.object
    assert "same network" in teacher.head.object
    assert teacher.controls.begin.visible
    assert not teacher.join_column.visible


def test_a_vote_shows_its_code_address_and_picture(started):
    code = started.held.code
    said = started.joining.object
    assert f'<p class="code">{code}</p>' in said
    assert f":5999/join?code={code}" in said
    assert '<svg role="img"' in said
    assert f"<title>QR code of {started.held.base}/join?code={code}</title>" in said


def test_a_vote_stays_at_the_place_where_it_began(started, study):
    before = started.head.object
    study.place = study.ground.places.cells + 2
    started.look()
    assert started.head.object == before


def test_outside_the_boundary_no_vote_begins(teacher, study):
    study.place = int(np.flatnonzero(~study.ground.places.inside)[0])
    teacher.begin()
    assert teacher.held is None
    assert "outside the boundary" in teacher.session.said


def test_the_controls_turn_the_vote(started):
    def state():
        return started.vote.state, started.vote.round

    controls = started.controls
    assert controls.reveal.disabled
    cast(started, "Ash", "Oak")
    for press, expected in (
        (controls.freeze, ("frozen", 1)),
        (controls.freeze, ("open", 1)),
        (controls.reveal, ("revealed", 1)),
        (controls.again, ("open", 2)),
    ):
        assert not press.disabled
        press.clicks += 1
        assert state() == expected


def test_what_loses_ballots_asks_twice(started):
    cast(started, "Ash")
    reset = started.controls.reset.button
    reset.clicks += 1
    assert "Delete all ballots" in reset.label
    assert "Ash" in started.controls.names.object
    reset.clicks += 1
    assert "Ash" not in started.controls.names.object
    assert reset.label == "Reset"


def test_a_name_out_of_place_can_be_struck(started):
    cast(started, "Ash", "Rude")
    started.controls.who.value = "Rude"
    started.controls.strike.clicks += 1
    kept = started.voting.store.ballots(started.held.code)
    assert [one.group for one in kept] == ["Ash"]


def test_nobody_steers_without_the_owners_key(started):
    cast(started, "Ash")
    started.held = group_page.Held(started.held.code, "not the key", started.held.base)
    for act in ("freeze", "reveal", "next_round", "reset"):
        started.steer(act)
        assert "Only the one who began this vote" in started.session.said
    assert started.voting.store.session(started.held.code).state == "open"


def test_a_reload_finds_the_vote_and_another_visitor_does_not(started):
    session, code = started.session, started.held.code
    mine = Group(Session(session.study, session.opened, WorkingCopy(DEMO, session.copy.visitor)))
    mine.refresh()
    assert f'<p class="code">{code}</p>' in mine.joining.object
    other = Group(Session(session.study, session.opened, WorkingCopy(DEMO)))
    other.refresh()
    assert other.held is None
    assert other.controls.begin.visible


def test_the_key_is_for_its_user_alone_to_read(started):
    path = started.keys._path
    assert started.held.owner in path.read_text()
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert not started.session.copy.changed


def test_phones_can_be_told_another_address(started):
    started.controls.address.value = "https://vote.example/join"
    code = started.held.code
    assert f"https://vote.example/join?code={code}" in started.joining.object
    assert "vote.example" in started.controls.wall.object
    started.controls.address.value = "not an address"
    assert "no address" in started.session.said
    assert started.controls.address.value == "https://vote.example"


def test_ballots_export_as_a_table_without_formulas(started):
    cast(started, "Ash", FORMULA)
    text = started.controls.export.callback().read()
    lines = list(csv.DictReader(io.StringIO(text)))
    assert {line["group"] for line in lines} == {"Ash", f"'{FORMULA}"}
    table = pd.read_csv(io.StringIO(text))
    assert table["round"].tolist() == [1, 1]
    assert table[list(NAMES)].to_numpy().sum() == pytest.approx(2 * (len(NAMES) - 1 + 30))


def test_weights_stay_private_until_they_are_revealed(started):
    cast(started, "Ash", MARKUP)
    assert "&lt;b&gt;bold" in started.controls.names.object
    assert not started.result_column.visible
    assert started.results.drawing is None
    started.steer("reveal")
    assert started.result_column.visible
    assert "&lt;b&gt;bold" in started.results.choices.object


def test_an_end_deletes_the_vote_and_lets_another_begin(started):
    code = started.held.code
    started.end()
    assert started.controls.begin.visible
    assert started.keys.held() is None
    with pytest.raises(ValueError, match="There is no vote"):
        started.voting.store.session(code)


def look(wall) -> None:
    # in a thread of its own: a browser test before it leaves its loop running in this one
    with ThreadPoolExecutor(1) as one:
        one.submit(asyncio.run, wall.look()).result()


def test_the_wall_shows_names_as_they_arrive_and_then_the_results(started):
    wall = Wall(started.voting, started.held.code, "http://10.0.0.9:5999")
    look(wall)
    assert "No ballot has arrived yet" in wall.joining.object
    cast(started, "Ash", MARKUP)
    look(wall)
    assert "2 ballots" in wall.head.object
    assert "<li>&lt;b&gt;bold&lt;/b&gt;</li>" in wall.joining.object
    assert not wall.revealed.visible
    started.steer("reveal")
    look(wall)
    assert wall.revealed.visible
    assert not wall.joining.visible
    found = started.voting.agreement(started.vote, 1)
    assert all(sentence in wall.results.said.object for sentence in _plain(all_points(found)[2:4]))


def _plain(sentences):
    return [sentence.replace("'", "&#x27;") for sentence in sentences]


def test_the_plot_is_drawn_once_and_a_second_vote_only_moves_it(started):
    wall = Wall(started.voting, started.held.code, "")
    cast(started, "Ash", "Oak", "Elm")
    started.steer("reveal")
    look(wall)
    drawing = wall.results.drawing
    first = drawing.layers["dots"]["x"]
    assert drawing.layers["before"]["x"] == []
    started.steer("next_round")
    cast(started, "Ash 2", "Oak 2", "Elm 2", voted=2, by=5.0)
    started.steer("reveal")
    look(wall)
    assert wall.results.drawing is drawing
    assert len(drawing.layers["before"]["x"]) == len(first)
    assert drawing.layers["dots"]["x"] != first
    assert "What the second vote moved" in wall.results.said.object


def test_a_wall_of_another_process_sees_the_same_vote(started, study, tmp_path):
    elsewhere = Voting(Kept(study), Ballots(f"sqlite:///{tmp_path}/ballots.sqlite3"))
    wall = Wall(elsewhere, started.held.code, "")
    look(wall)
    cast(started, "Ash")
    look(wall)
    assert "Ash" in wall.joining.object


def test_the_wall_of_an_unknown_code_says_so(started):
    wall = Wall(started.voting, "QQQQQ", "")
    look(wall)
    assert "There is no vote with the code QQQQQ" in wall.head.object


def test_an_agreement_is_reckoned_once_for_each_change(started, monkeypatch):
    from dashboard.join import voting as module  # noqa: PLC0415 - to count its calls

    asked = []
    reckoned = module.agreement
    monkeypatch.setattr(module, "agreement", lambda *given: asked.append(1) or reckoned(*given))
    cast(started, "Ash", "Oak")
    started.steer("reveal")
    walls = [Wall(started.voting, started.held.code, "") for _one in range(3)]
    for wall in walls * 3:
        look(wall)
    assert len(asked) == 1
