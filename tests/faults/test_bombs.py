"""Files made to take time or memory are refused in words, within bounds (tests/faults/bombs.py)."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from tests.faults.bombs import LONGEST, MOST_MEMORY, Burst, bombs

ROOT = Path(__file__).parents[2]
# A machine that tests on all its cores gives a tenth of one; what is not bounded takes far longer.
BUSY = 8.0
NAMES = [f"{bomb.file}: {bomb.name}" for bomb in bombs()]


@pytest.fixture(scope="module")
def burst(tmp_path_factory):
    """What came of every bomb, by its name; all read in processes of their own."""
    folder = tmp_path_factory.mktemp("bombs")
    command = [sys.executable, "-m", "tests.faults.bombs", str(folder)]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)  # noqa: S603 -- our own
    assert done.returncode == 0, done.stderr
    found = [Burst(**json.loads(line)) for line in done.stdout.splitlines()]
    return {one.name: one for one in found}


@pytest.mark.parametrize("name", NAMES)
def test_a_bomb_is_refused_in_words_and_within_bounds(burst, name):
    told = burst[name]
    assert not told.wrong
    assert told.megabytes <= MOST_MEMORY
    assert told.seconds <= LONGEST * BUSY
