"""Promises of the phones' page: each has its own ballot, and nothing else, whatever it sends."""

import numpy as np
import pytest

from dashboard.join import form, handlers
from dashboard.join.judge import Judge
from dashboard.join.pace import Pace
from dashboard.join.voting import Voting
from tests.dashboard.phones import Form, Phone, begun, door, voting
from tests.model.demo import demo_study

JUDGE = Judge.at(demo_study(), demo_study().place)
MARKUP = '<img src=x onerror="alert(1)">'


@pytest.fixture(scope="module")
def served(tmp_path_factory):
    url = f"sqlite:///{tmp_path_factory.mktemp('votes')}/ballots.sqlite3"
    votes = voting(demo_study(), url)
    with door(votes) as port:
        yield votes, port


@pytest.fixture
def votes(served) -> Voting:
    return served[0]


@pytest.fixture
def key(votes):
    return begun(votes, demo_study())


@pytest.fixture
def phone(served, monkeypatch):
    monkeypatch.setattr(handlers, "PHONE", Pace(1000, 1000))
    return lambda: Phone(served[1])


@pytest.fixture
def joined(phone, key):
    def join(group):
        one = phone()
        assert one.join(key.code, group).status == 303
        return one

    return join


def sent(votes, key):
    return {one.group: dict(one.weights) for one in votes.store.ballots(key.code)}


def test_a_phone_joins_sends_and_reads_when(joined, votes, key):
    said = joined("Pears").send(key.code, "Pears", **{"family-place": "90"}).said
    assert said.startswith("Sent at ")
    weights = sent(votes, key)["Pears"]
    place = sum(weights[one.name] for one in JUDGE.members("place"))
    assert place == pytest.approx(90)


def test_the_sentence_names_what_the_study_would_choose(joined, key):
    study = demo_study()
    fields = {"code": key.code, "family-place": "80", "family-people": "5", "trade_off": "-3"}
    said = joined("Pears").post("/join/result", fields, script=True).said
    ballot = form.ballot_of(JUDGE, {name: [one] for name, one in fields.items()}, "x", 1)
    before = study.snapshot()
    try:
        weights = np.array([ballot.weights[factor.name] for factor in study.factors])
        study.param.update(weights=weights / weights.sum(), trade_off=-3.0)
        here = study.here()
    finally:
        study.restore(before)
    leaders = [study.options[one].label for one in np.flatnonzero(here.rank == 1)]
    assert all(label in said for label in leaders)
    assert f"{100 * here.score[here.allowed[0]]:.0f} of 100" in said


def test_asking_for_sentences_keeps_nothing_and_changes_no_study(joined, votes, key):
    study = demo_study()
    before = study.snapshot()
    one = joined("Pears")
    for height in ("0", "40", "100"):
        one.post("/join/result", {"code": key.code, "family-room": height}, script=True)
    after = study.snapshot()
    assert np.array_equal(before.pop("weights"), after.pop("weights"))
    assert before == after
    assert sent(votes, key) == {}


def test_the_study_is_opened_once_for_all_phones(joined, votes, key):
    for number in range(5):
        joined(f"Group {number}").send(key.code, f"Group {number}")
    assert votes.opened.asked <= 1


def test_a_reload_finds_what_was_sent(joined, key):
    one = joined("Pears")
    fields = {
        "family-room": "12",
        "family-people": "77",
        "trade_off": "-10",
        "option": "Czar on Pixy",
    }
    one.send(key.code, "Pears", **fields)
    page = one.get("/join/vote", code=key.code).text
    values = Form(page).values
    assert (values["family-room"], values["family-people"]) == ("12", "77")
    assert (values["trade_off"], values["option"]) == ("-10", "Czar on Pixy")
    assert "Sent at " in page


def test_without_a_script_the_form_is_sent_and_shown_again(joined, votes, key):
    one = joined("Pears")
    page = one.get("/join/vote", code=key.code).text
    answer = one.post("/join/vote", Form(page).values | {"family-ground": "3"})
    assert answer.status == 303
    assert Form(one.get("/join/vote", code=key.code).text).values["family-ground"] == "3"
    assert "Pears" in sent(votes, key)


def test_nobody_changes_anothers_ballot(joined, phone, votes, key):
    owner, other = joined("Pears"), joined("Plums")
    owner.send(key.code, "Pears", **{"family-place": "90"})
    before = sent(votes, key)
    answer = other.send(key.code, "Pears", **{"family-place": "1"})
    assert "Another group is called Pears" in answer.said
    forged = phone()
    forged.cookies = {"treestead_ballot": "A" * 32, "treestead_group": "Pears"}
    assert forged.send(key.code, "Pears", **{"family-place": "1"}).status == 409
    assert sent(votes, key) == before


def test_a_page_without_a_token_cannot_send(phone, votes, key):
    for cookies in ({}, {"treestead_ballot": "short"}, {"treestead_ballot": "x" * 31 + "'"}):
        one = phone()
        one.cookies = cookies
        assert one.send(key.code, "Pears").status == 403
    assert sent(votes, key) == {}


@pytest.mark.parametrize("origin", [None, "http://elsewhere.example", "null"])
def test_another_page_cannot_send_in_a_phones_name(joined, votes, key, origin):
    one = joined("Pears")
    fields = {"code": key.code, "group": "Pears"}
    for path in ("/join", "/join/vote", "/join/result"):
        assert one.post(path, fields, origin=origin).status == 403
    assert sent(votes, key) == {}


def test_cookies_are_for_the_vote_alone_and_no_script_reads_them(phone, key):
    cookies = phone().join(key.code, "Pears").cookies
    assert len(cookies) == 2
    for cookie in cookies:
        assert {"HttpOnly", "SameSite=Strict", "Path=/join"} <= set(cookie.split("; "))


def test_a_body_too_large_is_refused_before_it_is_read(joined, votes, key):
    one = joined("Pears")
    fields = {"code": key.code, "group": "Pears", "more": "x" * handlers.BODY}
    assert one.post("/join/vote", fields).status in (400, 413)
    assert sent(votes, key) == {}
    many = {f"field{number}": "1" for number in range(handlers.FIELDS + 1)}
    assert one.post("/join/vote", many).status == 400


def test_a_phone_gone_wild_is_told_to_wait_and_the_others_are_not(joined, monkeypatch, key):
    wild, calm = joined("Wild"), joined("Calm")
    monkeypatch.setattr(handlers, "PHONE", Pace(5, 0.1))
    answers = [wild.get("/join/state", code=key.code).status for _one in range(9)]
    assert answers.count(429) == 4
    assert calm.get("/join/state", code=key.code).status == 200


def test_names_are_shown_as_text(joined, votes, key):
    one = joined(MARKUP)
    assert one.send(key.code, MARKUP).status == 200
    pages = [one.get("/join/vote", code=key.code).text, one.get("/join", change="1").text]
    votes.store.reveal(*key)
    votes.stale(key.code)
    pages.append(one.get("/join/vote", code=key.code).text)
    assert all("<img" not in page for page in pages)
    assert "&lt;img" in pages[0]


@pytest.mark.parametrize("code", ["QQQQQ", "", "<b>x</b>", "A" * 300])
def test_an_unknown_code_is_said_in_words(phone, code):
    answer = phone().join(code, "Pears")
    assert answer.status == 409
    assert "There is no vote with the code" in answer.text
    assert "<b>x" not in answer.text


@pytest.mark.parametrize("name", ["", "   ", "x" * 61, "a\u202eb"])
def test_a_name_that_cannot_be_read_is_refused_at_the_door(phone, key, name):
    answer = phone().join(key.code, name)
    assert answer.status == 409
    assert 'role="alert"' in answer.text


@pytest.mark.parametrize("value", ["nan", "inf", "many", "1e999"])
def test_a_field_that_is_no_number_is_said(joined, votes, key, value):
    answer = joined("Pears").send(key.code, "Pears", **{"family-place": value})
    assert "expected a number" in answer.said
    assert sent(votes, key) == {}


def test_heights_stay_within_the_slider(joined, votes, key):
    joined("Pears").send(key.code, "Pears", **{"family-place": "1e9", "family-room": "-5"})
    weights = sent(votes, key)["Pears"]
    assert sum(weights[one.name] for one in JUDGE.members("place")) == pytest.approx(100)
    assert sum(weights[one.name] for one in JUDGE.members("room")) == 0


def test_a_frozen_vote_takes_nothing_and_says_so(joined, votes, key):
    one = joined("Pears")
    one.send(key.code, "Pears")
    before = sent(votes, key)
    votes.store.freeze(*key)
    votes.stale(key.code)
    assert Form(one.get("/join/vote", code=key.code).text).disabled
    assert "Voting is closed" in one.send(key.code, "Pears", **{"family-room": "1"}).said
    assert sent(votes, key) == before


def test_after_the_reveal_each_reads_the_counts_and_where_it_differs(joined, votes, key):
    phones = {name: joined(name) for name in ("Sun", "Room", "Even")}
    phones["Sun"].send(key.code, "Sun", **{"family-place": "100", "family-room": "10"})
    phones["Room"].send(key.code, "Room", **{"family-room": "100", "family-place": "10"})
    phones["Even"].send(key.code, "Even")
    votes.store.reveal(*key)
    votes.stale(key.code)
    page = phones["Sun"].get("/join/vote", code=key.code).text
    found = votes.agreement(votes.session(key.code), 1)
    most = int(found.chosen.argmax())
    assert f"{found.options[most]}</th><td>{found.chosen[most]}</td>" in page
    assert "Your weights choose" in page
    assert "the groups in common" in page


def test_before_the_reveal_nothing_of_another_is_on_the_page(joined, key):
    joined("Secretive").send(key.code, "Secretive", **{"family-place": "97"})
    page = joined("Curious").get("/join/vote", code=key.code).text
    assert "Secretive" not in page
    assert "97" not in Form(page).values.values()


def test_another_vote_begins_with_the_groups_own(joined, votes, key):
    one = joined("Pears")
    one.send(key.code, "Pears", **{"family-room": "12"})
    votes.store.reveal(*key)
    votes.store.next_round(*key)
    votes.stale(key.code)
    page = one.get("/join/vote", code=key.code).text
    assert Form(page).values["family-room"] == "12"
    assert "By your vote before: " in page
    assert "Round 2" in one.send(key.code, "Pears", voted=1).said
    assert one.send(key.code, "Pears", voted=2).status == 200


def test_the_door_leads_to_the_vote_and_nowhere_else(phone, key):
    for path in ("/wall", "/ws", "/static/js/bokeh.min.js", "/join/static/../handlers.py"):
        assert phone().get(path).status == 404
    home = phone().get("/")
    assert (home.status, dict(home.headers)["Location"]) == (301, "/join")
    assert dict(phone().get("/join").headers)["Content-Security-Policy"].startswith("default-src")


def test_the_page_is_light(joined, key):
    one = joined("Pears")
    parts = [
        one.get("/join/vote", code=key.code),
        *map(one.get, ("/join/static/join.css", "/join/static/join.js")),
    ]
    assert all(part.status == 200 for part in parts)
    assert sum(len(part.text.encode()) for part in parts) < 40_000


def test_the_same_land_is_judged_after_a_working_copy_is_gone(votes):
    study = demo_study()
    told = votes.store.new_session(
        '{"site": "Gone", "folder": "/nowhere/at/all", "x": 1.0, "y": 2.0}'
    )
    place = study.ground.places.nearest(1.0, 2.0)
    judge = votes.judge(votes.session(told.code))
    assert judge.place_name == study.ground.places.name(place)


def test_a_class_behind_one_address_joins_at_once(phone, monkeypatch, key):
    monkeypatch.setattr(handlers, "PHONE", Pace(30, 4))
    assert {phone().join(key.code, f"Group {number}").status for number in range(60)} == {303}
