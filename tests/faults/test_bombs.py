"""Files made to take time or memory are refused in words, within bounds (tests/faults/bombs)."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from tests.faults.bombs.burst import LONGEST, MOST_MEMORY, Burst

pytestmark = pytest.mark.slow

ROOT = Path(__file__).parents[2]
# A machine that tests on all its cores gives a tenth of one; what is not bounded takes far longer.
BUSY = 8.0


@pytest.fixture(scope="module")
def told(tmp_path_factory):
    """What came of every bomb; all read one after another, each in a process that has bounds."""
    folder = tmp_path_factory.mktemp("bombs")
    command = [sys.executable, "-m", "tests.faults.bombs", str(folder)]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)  # noqa: S603 -- our own
    assert done.returncode == 0, done.stderr
    return [Burst(**json.loads(line)) for line in done.stdout.splitlines()]


def test_every_bomb_is_refused_in_words_that_say_where(told):
    assert len({one.name for one in told}) == len(told) > 50
    assert [one for one in told if one.wrong] == []


def test_no_bomb_takes_more_than_its_share_of_time_and_memory(told):
    assert [one for one in told if one.megabytes > MOST_MEMORY] == []
    assert [one for one in told if one.seconds > LONGEST * BUSY] == []
