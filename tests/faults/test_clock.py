"""Clocks that jump and zones that change: no result follows from the time of the machine."""

import os
import time
from contextlib import closing
from datetime import UTC, datetime, timedelta
from itertools import count
from pathlib import Path

import pytest

from dashboard.__main__ import main
from dashboard.join.voting import stamp
from dashboard.keeping.drafts import STALE, sweep, written
from dashboard.keeping.working_copy import WorkingCopy, new_visitor
from dashboard.votes import rows as ballot_rows
from dashboard.votes.ballots import Ballots, new_token
from model.group.ballot import Ballot
from model.survey.starter import new_folder

pytestmark = pytest.mark.slow

ZONES = ("Pacific/Apia", "UTC")  # days apart for most of the hours


def ballot(count: int, group: str = "Growers", voted: int = 1) -> Ballot:
    return Ballot(group, {"sunlight": count, "views": 1}, -1.0, round=voted)


@pytest.fixture
def backwards(monkeypatch):
    """A clock that is set back by a day each time it is looked at."""
    begin, back = datetime(2026, 3, 1, tzinfo=UTC), count()

    def now() -> str:
        return (begin - timedelta(days=next(back))).isoformat(timespec="seconds")

    monkeypatch.setattr(ballot_rows, "now", now)


def test_votes_keep_their_order_and_the_last_one_counts_while_the_clock_goes_back(
    backwards, tmp_path
):
    with closing(Ballots(f"sqlite:///{tmp_path}/ballots.sqlite3")) as store:
        key, token = store.new_session("a clock that goes back"), new_token()
        for sunlight in (1, 2, 3):
            store.cast(key.code, token, ballot(sunlight))
        store.next_round(*key)
        store.cast(key.code, token, ballot(4, voted=2))
        assert store.own(key.code, token, 1).weights["sunlight"] == 3
        history = store.export(key.code, history=True)
        assert history["sunlight"].tolist() == [1, 2, 3, 4]
        assert history["at"].tolist() == sorted(history["at"], reverse=True)
        assert store.session(key.code).round == 2


@pytest.mark.parametrize("days", [-3000, 3000])
def test_a_session_has_no_end_that_a_clock_could_bring(monkeypatch, tmp_path, days):
    with closing(Ballots(f"sqlite:///{tmp_path}/ballots.sqlite3")) as store:
        key, token = store.new_session("far away in time"), new_token()
        far = (datetime.now(UTC) + timedelta(days=days)).isoformat(timespec="seconds")
        monkeypatch.setattr(ballot_rows, "now", lambda: far)
        store.cast(key.code, token, ballot(1))
        assert store.freeze(*key).state == "frozen"


def test_a_change_is_seen_though_time_and_size_of_the_file_are_the_same(tmp_path):
    file = written(tmp_path / "order.csv", "count\n1\n")
    os.utime(file, (0, 0))
    before = stamp(tmp_path)
    written(file, "count\n2\n")
    os.utime(file, (0, 0))
    assert stamp(tmp_path) != before


@pytest.mark.parametrize("at", [0, 4_000_000_000])
def test_a_saving_looks_at_what_files_hold_and_never_at_their_times(tmp_path, monkeypatch, at):
    monkeypatch.setenv("TREESTEAD_DATA", str(tmp_path / "data"))
    field = tmp_path / "field"
    field.mkdir()
    for name in ("order.csv", "prices.csv"):
        (field / name).write_text("old", encoding="utf-8")
    copy = WorkingCopy(field, new_visitor())
    copy.write("order.csv", "new")
    for file in (*field.iterdir(), *copy.own.iterdir()):
        os.utime(file, (at, at))
    assert copy.save() == ([field / "order.csv"], [])
    assert (field / "order.csv").read_text(encoding="utf-8") == "new"
    assert not copy.changed


def test_what_is_dated_in_the_future_is_not_taken_for_old(tmp_path):
    for name, age in (("young", 0), ("future", -10 * STALE), ("old", 2 * STALE)):
        draft = tmp_path / f".treestead-{name}"
        draft.write_text("at work", encoding="utf-8")
        os.utime(draft, (time.time() - age,) * 2)
    (tmp_path / "old.csv").write_text("no draft", encoding="utf-8")
    os.utime(tmp_path / "old.csv", (0, 0))
    sweep(tmp_path)
    left = {path.name for path in tmp_path.iterdir()}
    assert left == {".treestead-young", ".treestead-future", "old.csv"}


@pytest.fixture
def in_zone():
    """Let this process live in a time zone, until the test is over."""
    if not hasattr(time, "tzset"):
        pytest.skip("the zone of a process cannot be changed here")
    with pytest.MonkeyPatch.context() as patch:

        def live(zone: str, cache: Path) -> None:
            patch.setenv("TZ", zone)
            patch.setenv("TREESTEAD_CACHE", str(cache))  # or one zone would read the other's
            time.tzset()

        yield live
    time.tzset()


def outputs(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.iterdir()}


COMMANDS = {
    "assess": ["assess"],
    "place": ["place", "--winter", "2026"],
    "review": ["review", "--on", "2027-06-30"],
}


@pytest.fixture(scope="module")
def field(tmp_path_factory):
    """A small survey with weather, an order, a planted tree and what was seen of it."""
    folder = tmp_path_factory.mktemp("zones") / "field"
    new_folder(folder)
    (folder / "weather_monthly.example.csv").rename(folder / "weather_monthly.csv")
    (folder / "order.csv").write_text(
        "count,species,cultivar,rootstock,use,note\n2,apple,,,,\n", encoding="utf-8"
    )
    (folder / "placement.csv").write_text(
        "spot,x_m,y_m,species,cultivar,rootstock,wish,score,planted\n"
        "A,40,20,apple,Discovery,MM106,,,2026-12-31\n",
        encoding="utf-8",
    )
    (folder / "observations.csv").write_text(
        "spot,date,what,value,plus_minus,unit,note\nA,2027-06-20,sun_hours,6.6,1,h/day,\n",
        encoding="utf-8",
    )
    return folder


@pytest.mark.parametrize("command", COMMANDS)
def test_a_command_writes_the_same_bytes_in_every_zone(command, field, tmp_path, in_zone):
    found = []
    for zone in ZONES:
        out = tmp_path / zone.replace("/", "-")
        in_zone(zone, cache=field.with_name(out.name))
        name, *more = COMMANDS[command]
        assert main([name, str(field), *more, "--out", str(out)]) == 0
        found.append(outputs(out))
    assert found[0].keys() == found[1].keys() != set()
    assert [name for name in found[0] if found[0][name] != found[1][name]] == []
