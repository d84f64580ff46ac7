"""Killed at any moment: nothing that was acknowledged is lost, and the next start is clean.

TREESTEAD_KILLS=200, say, kills more often at random than the usual run does.
"""

import os
import subprocess
import sys
import time
from pathlib import Path

import numpy as np
import pytest

from dashboard.keeping.drafts import STALE
from dashboard.keeping.working_copy import BASE, sweep_copies
from model.ground.store import Store
from tests.faults import killed
from tests.faults.killed import NEW, OLD, copy_in, ground_of

pytestmark = [
    pytest.mark.skipif(not hasattr(os, "fork"), reason="kills processes as POSIX does"),
    pytest.mark.slow,
]
ROOT = Path(__file__).parents[2]
TIMES = int(os.environ.get("TREESTEAD_KILLS", "2"))


@pytest.fixture(scope="module")
def deaths(tmp_path_factory):
    """The folder of all cases, and what was said in each before the end."""
    folder = tmp_path_factory.mktemp("killed")
    script = [sys.executable, "-m", "tests.faults.killed", str(folder), str(TIMES)]
    told = subprocess.run(script, cwd=ROOT, capture_output=True, text=True, check=True)  # noqa: S603 - our own words
    said: dict[Path, list[str]] = {}
    for line in told.stdout.splitlines():
        if line.startswith("case "):
            _case, act, step = line.split()
            words = said.setdefault(folder / act / step, [])
        else:
            words.append(line)
    return said


@pytest.fixture
def cases(deaths, monkeypatch):
    """The cases of an act, the working copies kept where each has its own."""
    monkeypatch.setenv("TREESTEAD_DATA", "set back after the test")

    def of(act: str, least: int) -> list[tuple[Path, list[str]]]:
        found = [(case, words) for case, words in deaths.items() if case.parent.name == act]
        assert len(found) >= least  # it was killed at so many different steps
        return found

    return of


def texts(folder: Path) -> dict[str, str]:
    """What a folder's own files hold; a file that is cut off would differ from all we wrote."""
    return {
        file.name: file.read_text(encoding="utf-8")
        for file in folder.iterdir()
        if not file.name.startswith(".") and file.is_file()
    }


def leftovers(case: Path) -> list[Path]:
    """All that is not a file of a folder or of a copy, nor what the copy was begun from."""
    copy = copy_in(case)
    beside = copy.own.parent.iterdir() if copy.own.parent.is_dir() else ()
    hidden = [path for path in (case / "field").iterdir() if path.name.startswith(".")]
    own = copy.own.iterdir() if copy.changed else ()
    hidden += [path for path in own if path.name.startswith(".") and path.name != BASE]
    return hidden + [path for path in beside if path != copy.own]


def swept(case: Path) -> None:
    """A start of the app leaves what is young, and removes what was left a day ago or longer."""
    before = leftovers(case)
    sweep_copies(case / "field")
    assert leftovers(case) == before
    old = time.time() - STALE - 60
    for path in before:
        os.utime(path, (old, old))
    sweep_copies(case / "field")
    assert leftovers(case) == []


@pytest.mark.parametrize(("act", "least"), [("begin", 9), ("keep", 10)])
def test_a_copy_is_there_whole_or_not_at_all(cases, act, least):
    unkept = OLD | {"order.csv": NEW["order.csv"]}
    for case, said in cases(act, least):
        copy = copy_in(case)
        assert texts(copy.original) == OLD
        found = texts(copy.folder)
        assert found == OLD or (act == "keep" and found == unkept)
        if said:
            assert found == unkept
        swept(case)
        copy.write("order.csv", NEW["order.csv"])
        assert texts(copy.folder) == unkept


def test_files_that_are_changed_together_are_all_changed_or_none(cases):
    seen = set()
    for case, said in cases("together", 18):
        copy = copy_in(case)
        assert texts(copy.original) == OLD
        found = texts(copy.folder)
        assert found == (
            NEW if "order.csv" in found and found["order.csv"] == "count\n2\n" else OLD
        )
        assert found == NEW or not said
        seen.add("new" if found == NEW else "old")
        swept(case)
        assert texts(copy.folder) == found
    assert seen == {"old", "new"}


def test_a_saving_that_was_cut_short_loses_nothing_and_is_finished_by_saving_again(cases):
    half = 0
    for case, said in cases("save", 12):
        copy = copy_in(case)
        folder = texts(copy.original)
        for name, text in folder.items():
            assert text in (OLD.get(name), NEW.get(name))
        assert copy.changed or folder == NEW
        assert folder == NEW or not said
        if copy.changed:
            assert texts(copy.own) == NEW
            assert copy.cut_short or folder == OLD
        half += folder not in (OLD, NEW)
        swept(case)
        copy.save()
        assert texts(copy.original) == NEW
        assert not copy.changed
    assert half >= 3


def test_a_copy_that_is_given_up_is_there_whole_or_gone(cases):
    for case, _said in cases("discard", 5):
        copy = copy_in(case)
        assert texts(copy.folder) == (NEW if copy.changed else OLD)
        swept(case)
        assert texts(copy.original) == OLD


def test_a_count_that_was_kept_is_found_again(cases):
    for case, said in cases("keeping", TIMES):
        found = texts(copy_in(case).folder)["order.csv"]
        if not said:
            assert found == OLD["order.csv"] or found == "1\n" * 5000
            continue
        kept = int(said[-1])
        assert found in (f"{kept}\n" * 5000, f"{kept + 1}\n" * 5000)


def test_no_part_of_a_ground_is_ever_read(cases):
    sun = killed.GROUND.sun
    for case, _said in cases("store", 6):
        for path in (case / "store").glob("*.npz"):
            with np.load(path) as arrays:  # raises where anything is cut off
                assert all(arrays[name].size for name in arrays.files)
        kept = Store(case / "store")
        found = kept.kept(type(sun), "inputs", lambda: sun)
        assert np.array_equal(found.strong, sun.strong, equal_nan=True)
        for draft in (case / "store").glob("*.part"):
            os.utime(draft, (0, 0))
        kept.kept(type(sun), "other inputs", lambda: sun)
        assert not list((case / "store").glob("*.part"))


def test_a_ground_is_the_same_after_its_computing_was_killed(cases, tmp_path):
    for case, said in cases("ground", TIMES):
        latitude = int(said[-1]) if said else 40
        again, fresh = ground_of(case, latitude).sun, ground_of(tmp_path, latitude).sun
        assert np.array_equal(again.strong, fresh.strong, equal_nan=True)
        assert np.array_equal(again.morning, fresh.morning, equal_nan=True)
