"""Promises of the ballot store, in both databases: nothing lost, nobody's ballot another's."""

import io
import os
import re
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from pathlib import Path

import pandas as pd
import pytest
from sqlalchemy import text

from dashboard.votes.ballots import LETTERS, Ballots, Key, Refused, new_token
from model.group.ballot import NAMES, Ballot

from .postgresql import Missing, server

ROOT = Path(__file__).parents[2]
DATABASES = ("sqlite", "postgresql")


@pytest.fixture(scope="module")
def postgresql():
    try:
        with server() as url:
            yield url
    except Missing as why:
        if "TREESTEAD_REQUIRE_POSTGRES" in os.environ:
            raise
        pytest.skip(f"not tested with PostgreSQL: {why}")


@pytest.fixture(params=DATABASES)
def url(request, tmp_path):
    if request.param == "postgresql":
        return request.getfixturevalue("postgresql")
    return f"sqlite:///{tmp_path}/new/ballots.sqlite3"


@pytest.fixture
def store(url):
    with closing(Ballots(url)) as opened:
        yield opened


@pytest.fixture
def key(store) -> Key:
    return store.new_session("Made up for a test")


def ballot(group: str = "Growers", sunlight: float = 3, **changed) -> Ballot:
    weights = {"sunlight": sunlight, "views": 1.0}
    return Ballot(**{"group": group, "weights": weights, "trade_off": -1.0} | changed)


def weights(store, code) -> dict[str, float]:
    return {sent.group: sent.weights["sunlight"] for sent in store.ballots(code)}


def test_a_code_is_short_and_cannot_be_misread(key) -> None:
    assert re.fullmatch(f"[{LETTERS}]{{5}}", key.code)
    assert not set("0O1IL") & set(LETTERS)


def test_a_code_may_be_typed_in_any_way(store, key) -> None:
    typed = f" {key.code[:2].lower()}-{key.code[2:].lower()} "
    assert store.session(typed) == store.session(key.code)


def test_a_ballot_comes_back_as_it_was_sent(store, key) -> None:
    sent = ballot("Été 果樹園", trade_off=0.25, options=("Beth on Quince A", "Czar on Pixy"))
    kept = store.cast(key.code, new_token(), sent)
    assert store.ballots(key.code) == (kept,)
    assert kept.at
    assert (kept.group, kept.weights, kept.options) == (sent.group, sent.weights, sent.options)


def test_sending_again_replaces_the_own_ballot_and_no_other(store, key) -> None:
    mine, other = new_token(), new_token()
    store.cast(key.code, mine, ballot("Mine", 1))
    store.cast(key.code, other, ballot("Other", 2))
    store.cast(key.code, mine, ballot("Mine, renamed", 9))
    assert weights(store, key.code) == {"Mine, renamed": 9, "Other": 2}
    assert store.own(key.code, mine).weights["sunlight"] == 9
    assert store.own(key.code, new_token()) is None


def test_what_was_replaced_stays_in_the_history(store, key) -> None:
    token = new_token()
    for sunlight in (1, 2, 3):
        store.cast(key.code, token, ballot(sunlight=sunlight))
    assert store.export(key.code)["sunlight"].tolist() == [3]
    assert store.export(key.code, history=True)["sunlight"].tolist() == [1, 2, 3]


@pytest.mark.parametrize("name", ["GROWERS", " growers", "Growers"])
def test_a_name_belongs_to_the_group_that_used_it_first(store, key, name) -> None:
    store.cast(key.code, new_token(), ballot("Growers", 1))
    store.next_round(*key)
    with pytest.raises(Refused, match="Another group is called"):
        store.cast(key.code, new_token(), ballot(name, round=2))


@pytest.mark.parametrize("close", ["freeze", "reveal"])
def test_a_closed_session_takes_no_ballot_and_keeps_those_it_has(store, key, close) -> None:
    token = new_token()
    store.cast(key.code, token, ballot(sunlight=1))
    getattr(store, close)(*key)
    with pytest.raises(Refused):
        store.cast(key.code, token, ballot(sunlight=2))
    assert weights(store, key.code) == {"Growers": 1}
    store.open(*key)
    store.cast(key.code, token, ballot(sunlight=3))
    assert weights(store, key.code) == {"Growers": 3}


def test_an_unknown_code_is_refused_in_words(store) -> None:
    for ask in (store.session, store.ballots, store.export):
        with pytest.raises(Refused, match="There is no vote with the code AAAAA"):
            ask("AAAAA")
    with pytest.raises(Refused):
        store.cast("", new_token(), ballot())


@pytest.mark.parametrize(
    "act", ["freeze", "open", "reveal", "next_round", "reset", "forget", "strike"]
)
def test_only_the_owner_can_change_a_session(store, key, act) -> None:
    token = new_token()
    store.cast(key.code, token, ballot())
    before = store.session(key.code)
    more = ("Growers",) if act == "strike" else ()
    for wrong in ("", token, store.new_session("another").owner):
        with pytest.raises(Refused, match="Only the one who began this vote"):
            getattr(store, act)(key.code, wrong, *more)
    assert store.session(key.code) == before
    assert len(store.ballots(key.code)) == 1


def test_a_second_round_stands_beside_the_first(store, key) -> None:
    token = new_token()
    store.cast(key.code, token, ballot(sunlight=1))
    store.reveal(*key)
    assert (store.next_round(*key).round, store.session(key.code).state) == (2, "open")
    assert store.ballots(key.code) == ()
    store.cast(key.code, token, ballot(sunlight=2, round=2))
    assert [sent.weights["sunlight"] for sent in store.ballots(key.code, 1)] == [1]
    assert [sent.weights["sunlight"] for sent in store.ballots(key.code)] == [2]


def test_a_ballot_for_the_last_round_does_not_slip_into_the_next(store, key) -> None:
    store.next_round(*key)
    with pytest.raises(Refused, match=r"Round 2 is being voted on.*send it again"):
        store.cast(key.code, new_token(), ballot(round=1))


def test_reset_begins_afresh_and_the_log_remembers(store, key) -> None:
    store.cast(key.code, new_token(), ballot())
    store.next_round(*key)
    session = store.reset(*key)
    assert (session.round, session.state) == (1, "open")
    assert store.ballots(key.code, 1) == ()
    assert len(store.export(key.code, history=True)) == 1


def test_a_ballot_that_is_struck_frees_its_name(store, key) -> None:
    store.cast(key.code, new_token(), ballot())
    store.strike(*key, "  GROWERS ")
    store.cast(key.code, new_token(), ballot("Growers", 5))
    assert weights(store, key.code) == {"Growers": 5}


def test_a_forgotten_session_leaves_nothing(store, key) -> None:
    store.cast(key.code, new_token(), ballot())
    store.forget(*key)
    with pytest.raises(Refused):
        store.session(key.code)
    with store._engine.connect() as connection:
        for table in ("treestead_ballots", "treestead_ballot_log"):
            count = text(f"SELECT count(*) FROM {table} WHERE code = :code")  # noqa: S608 - fixed names
            assert connection.scalar(count, {"code": key.code}) == 0


def test_every_change_is_seen_and_only_a_change(store, key) -> None:
    token, version = new_token(), store.session(key.code).version
    changes = (
        lambda: store.cast(key.code, token, ballot()),
        lambda: store.cast(key.code, token, ballot(sunlight=5)),
        lambda: store.freeze(*key),
        lambda: store.reveal(*key),
        lambda: store.next_round(*key),
        lambda: store.strike(*key, "Growers"),
        lambda: store.reset(*key),
    )
    for change in changes:
        assert store.changed_since(key.code, version) is None
        change()
        seen = store.changed_since(key.code, version)
        assert seen.version > version
        version = seen.version


def test_another_server_process_sees_the_same(store, key, url) -> None:
    with closing(Ballots(url)) as other:
        other.cast(key.code, new_token(), ballot())
        assert len(store.ballots(key.code)) == 1
        store.freeze(*key)
        with pytest.raises(Refused):
            other.cast(key.code, new_token(), ballot("Late"))


def test_forty_groups_sending_at_once_lose_nothing(store, key) -> None:
    def send(number: int) -> None:
        token = f"token {number}"
        for sunlight in (1, 2, 3):
            store.cast(key.code, token, ballot(f"Group {number}", sunlight))

    with ThreadPoolExecutor(8) as pool:
        list(pool.map(send, range(40)))
    assert weights(store, key.code) == {f"Group {number}": 3 for number in range(40)}
    assert store.session(key.code).version == 1 + 3 * 40


def test_the_export_can_be_read_again(store, key) -> None:
    store.cast(key.code, new_token(), ballot("=1+1", options=("Beth on Quince A",)))
    store.next_round(*key)
    store.cast(key.code, new_token(), ballot("@home, 'ours'", round=2))
    table = pd.read_csv(io.StringIO(store.export_csv(key.code)))
    assert table["group"].tolist() == ["'=1+1", "'@home, 'ours'"]
    assert table["round"].tolist() == [1, 2]
    assert table["sunlight"].tolist() == [3, 3]
    assert table["spacing"].isna().all()
    assert list(table.columns) == ["round", "group", "at", "trade_off", "options", *NAMES]


def test_an_empty_export_has_its_columns(store, key) -> None:
    assert store.export(key.code).empty
    assert store.export_csv(key.code).startswith("round,group,at,trade_off,options,")


def test_keys_and_tokens_are_not_in_the_database(store, key) -> None:
    token = new_token()
    store.cast(key.code, token, ballot())
    with store._engine.connect() as connection:
        tables = ("treestead_sessions", "treestead_ballots", "treestead_ballot_log")
        held = [str(connection.execute(text(f"SELECT * FROM {t}")).all()) for t in tables]  # noqa: S608 - fixed names
    assert token not in "".join(held)
    assert key.owner not in "".join(held)


@pytest.mark.skipif(not hasattr(os, "fork"), reason="kills processes as POSIX does")
def test_no_acknowledged_ballot_is_lost_when_servers_are_killed(store, key, url) -> None:
    script = [sys.executable, "-m", "tests.dashboard.killed_writers", url, key.code, "6"]
    told = subprocess.run(script, cwd=ROOT, capture_output=True, text=True, check=True)  # noqa: S603 - our own words
    heard: dict[str, list[int]] = {}
    for line in told.stdout.splitlines():
        group, count = line.split()
        heard.setdefault(group, []).append(int(count))
    assert len(heard) == 6 * 3
    assert not told.stderr
    kept = weights(store, key.code)
    assert all(kept[group] >= max(counts) for group, counts in heard.items())
    history = store.export(key.code, history=True)
    for group, counts in heard.items():
        logged = history.loc[history["group"] == group, "sunlight"].tolist()
        assert logged == list(range(1, int(kept[group]) + 1))
        assert counts == logged[: len(counts)]
    if url.startswith("sqlite"):
        with closing(Ballots(url)) as again, again._engine.connect() as connection:
            assert connection.scalar(text("PRAGMA integrity_check")) == "ok"
            assert connection.scalar(text("PRAGMA journal_mode")) == "wal"
            assert connection.scalar(text("PRAGMA synchronous")) == 2  # full
    assert store.cast(key.code, new_token(), ballot("After")) in store.ballots(key.code)


def test_the_users_own_file_is_for_nobody_else(tmp_path, monkeypatch) -> None:
    file = tmp_path / "mine.sqlite3"
    monkeypatch.setenv("TREESTEAD_BALLOTS", f"sqlite:///{file}")
    with closing(Ballots()):
        assert file.stat().st_mode & 0o077 == 0


@pytest.mark.parametrize("address", ["sqlite://", "sqlite:///:memory:", "mysql://here/there"])
def test_a_database_that_cannot_keep_ballots_is_refused_in_words(address) -> None:
    with pytest.raises(ValueError, match="mend by an address such as"):
        Ballots(address)


def test_a_missing_driver_is_said_in_words(monkeypatch) -> None:
    monkeypatch.setitem(sys.modules, "psycopg", None)
    with pytest.raises(ValueError, match=r"mend by installing treestead\[postgres\]"):
        Ballots("postgresql://somebody@nowhere/ballots")
