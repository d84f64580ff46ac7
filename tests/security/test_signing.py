"""The key of the sessions: one for all processes, for its owner's eyes only, never a short one."""

import multiprocessing
import stat

import pytest

from dashboard.visits.signing import FILE, SECRET, SHORTEST, signing_key

PROCESSES = 8


@pytest.fixture
def data(tmp_path, monkeypatch):
    monkeypatch.setenv("TREESTEAD_DATA", str(tmp_path / "data"))
    monkeypatch.delenv(SECRET, raising=False)
    return tmp_path / "data"


def _told(together, keys) -> None:
    together.wait(60)
    keys.put(signing_key())


def test_processes_that_begin_at_once_agree_on_one_key(data):
    context = multiprocessing.get_context("fork")
    together, keys = context.Barrier(PROCESSES), context.Queue()
    running = [context.Process(target=_told, args=(together, keys)) for _one in range(PROCESSES)]
    for one in running:
        one.start()
    found = {keys.get(timeout=60) for _one in running}
    for one in running:
        one.join(60)
    assert found == {signing_key()}
    assert [path.name for path in data.iterdir()] == [FILE]


def test_only_the_owner_reads_the_key_and_it_outlives_the_process(data):
    key = signing_key()
    assert len(key) >= SHORTEST
    assert stat.S_IMODE((data / FILE).stat().st_mode) == 0o600
    assert (data / FILE).read_bytes() == key


def test_a_secret_told_by_the_environment_is_used_and_nothing_is_kept(data, monkeypatch):
    monkeypatch.setenv(SECRET, "a" * SHORTEST)
    assert signing_key() == b"a" * SHORTEST
    assert not data.exists()


def test_a_key_that_could_be_guessed_is_refused_in_words(data, monkeypatch):
    data.mkdir()
    (data / FILE).write_bytes(b"short")
    with pytest.raises(ValueError, match="found 5 bytes, expected 32 or more"):
        signing_key()
    monkeypatch.setenv(SECRET, "shorter")
    with pytest.raises(ValueError, match="TREESTEAD_SECRET: found 7 bytes"):
        signing_key()
