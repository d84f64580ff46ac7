"""A participant has their own ballot and their own copy of the land, and nothing of another's."""

import asyncio
from concurrent.futures import ThreadPoolExecutor

import pytest

from dashboard.app import session as app_session
from dashboard.join import handlers
from dashboard.join.pace import Pace
from dashboard.join.reach import Reach
from dashboard.join.subject import Subject
from dashboard.join.voting import Voting
from dashboard.keeping.opened import Opened
from dashboard.pages.wall import Wall
from dashboard.votes.ballots import Ballots, Refused
from tests.dashboard.phones import Phone, door
from tests.security.served import PUBLIC


@pytest.fixture
def votes(app, folder):
    """The votes as another process sees them, which shares folder, data and ballots."""
    return Voting(Opened(folder), Ballots(app.ballots))


@pytest.fixture
def key(votes):
    study = votes.opened.study()
    return votes.store.new_session(Subject.chosen(study, votes.opened.folder).text)


@pytest.fixture
def phone(app):
    return lambda: Phone(app.port)


def looked(wall: Wall) -> Wall:
    """The wall after its next look at the store."""
    with ThreadPoolExecutor(1) as one:  # a browser test before may leave its loop in this thread
        one.submit(asyncio.run, wall.look()).result()
    return wall


def test_processes_that_share_a_store_see_one_vote(votes, key, phone):
    ash = phone()
    assert ash.join(key.code, "Ash").status == 303
    assert ash.send(key.code, "Ash", **{"family-place": "90"}).said.startswith("Sent at ")
    wall = looked(Wall(votes, key.code, f"https://{PUBLIC}"))
    assert "<li>Ash</li>" in wall.joining.object
    votes.store.freeze(*key)
    assert "Voting is closed" in ash.send(key.code, "Ash", **{"family-place": "1"}).said
    votes.store.reveal(*key)
    with door(votes) as port:
        there = Phone(port, dict(ash.cookies))
        page = there.get("/join/vote", code=key.code).text
    assert "Your weights choose" in page
    votes.store.next_round(*key)
    assert ash.send(key.code, "Ash", voted=2).said.startswith("Sent at ")
    assert [one.round for one in votes.store.ballots(key.code)] == [2]


def test_a_phone_cannot_steer_a_vote_whatever_it_asks_for(votes, key, phone):
    one = phone()
    one.join(key.code, "Ash")
    before = votes.store.session(key.code)
    acts = ("freeze", "open", "reveal", "next_round", "reset", "strike", "forget", "export")
    for act in acts:
        for path in (f"/join/{act}", f"/join/vote/{act}", f"/{act}", "/join/state"):
            assert one.post(path, {"code": key.code, "owner": "x"}).status in (403, 404, 405)
    one.send(key.code, "Ash", state="revealed", owner="x", action="reveal", token="x", round_="9")  # noqa: S106 - a made-up field
    after = votes.store.session(key.code)
    assert (after.state, after.round, after.created) == ("open", 1, before.created)


@pytest.mark.parametrize("act", ["freeze", "open", "reveal", "next_round", "reset", "forget"])
def test_without_the_owner_s_key_the_store_itself_refuses(votes, key, act):
    for owner in ("", key.code, "x" * 32, key.owner[:-1], key.owner.swapcase()):
        with pytest.raises(Refused, match="Only the one who began this vote"):
            getattr(votes.store, act)(key.code, owner)
    assert votes.store.session(key.code).state == "open"


def test_nobody_reads_another_s_ballot_before_it_is_revealed(votes, key, phone):
    ash, birch = phone(), phone()
    ash.join(key.code, "Ash")
    birch.join(key.code, "Birch")
    ash.send(key.code, "Ash", **{"family-place": "97", "family-room": "13"})
    taken = ash.cookies["treestead_ballot"]
    for cookies in (birch.cookies, birch.cookies | {"treestead_group": "Ash"}):
        birch.cookies = dict(cookies)
        page = birch.get("/join/vote", code=key.code, token=taken[:-1]).text
        assert 'value="97"' not in page
        assert 'value="13"' not in page
    assert 'value="97"' in ash.get("/join/vote", code=key.code).text


def test_tokens_are_long_unlike_and_kept_as_digests_only(votes, key, phone, app):
    phones = [phone() for _number in range(3)]
    for number, one in enumerate(phones):
        one.join(key.code, f"Group {number}")
        one.send(key.code, f"Group {number}")
    tokens = {one.cookies["treestead_ballot"] for one in phones}
    assert len(tokens) == 3
    assert min(map(len, tokens)) >= 32
    kept = b"".join(path.read_bytes() for path in app.data.glob("ballots.sqlite3*"))
    assert b"Group 2" in kept
    assert not [token for token in (*tokens, key.owner) if token.encode() in kept]


def test_forms_come_from_the_vote_s_own_page_alone(votes, key, phone):
    one = phone()
    one.join(key.code, "Ash")
    fields = {"code": key.code, "group": "Ash"}
    assert one.post("/join/vote", fields, origin=f"https://{PUBLIC}").status == 303
    for origin in ("https://evil.invalid", f"https://{PUBLIC}.evil.invalid", "null", None):
        assert one.post("/join/vote", fields, origin=origin).status == 403


def test_the_phones_page_is_guarded_by_what_its_answer_tells_the_browser(phone, key):
    answer = phone().get("/join", code=key.code)
    told = {name.lower(): value for name, value in answer.headers}
    for words in ("default-src 'none'", "frame-ancestors 'none'", "form-action 'self'"):
        assert words in told["content-security-policy"]
    assert "unsafe" not in told["content-security-policy"]
    assert told["x-content-type-options"] == "nosniff"
    assert told["referrer-policy"] == "same-origin"
    cookies = phone().join(key.code, "Ash").cookies
    for cookie in cookies:
        assert {"HttpOnly", "SameSite=Strict", "Path=/join", "Secure"} <= set(cookie.split("; "))


def test_codes_cannot_be_tried_out_by_the_thousand(votes, monkeypatch):
    monkeypatch.setattr(handlers, "WRONG", Pace(at_once=20, a_second=0.01))
    with door(votes) as port:
        answers = [Phone(port).join(f"QQ{number:03}", "Ash").status for number in range(25)]
    assert answers == [409] * 20 + [429] * 5


def test_where_others_reach_the_app_nobody_writes_into_the_folder(folder, monkeypatch, tmp_path):
    monkeypatch.setenv("TREESTEAD_DATA", str(tmp_path))
    opened = Opened(folder)
    before = (folder / "spots.csv").read_bytes()
    for public, saved in ((f"https://{PUBLIC}", False), ("", True)):
        Voting.of(opened).reach = Reach(5010, public=public)
        begun = []
        monkeypatch.setattr(
            "dashboard.app.Shell",
            lambda session, _demo, begun=begun: begun.append(session) or Page(),
        )
        app_session(opened)
        session = begun[0]
        session.copy.write("spots.csv", before + b"Mine,1,1,\n")
        session.save()
        assert ((folder / "spots.csv").read_bytes() != before) is saved
    (folder / "spots.csv").write_bytes(before)


class Page:
    """What stands in the place of the frame round the pages."""

    view = None
