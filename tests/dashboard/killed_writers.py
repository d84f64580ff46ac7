"""Writers that are killed while they cast: run on its own, since it forks.

`python -m tests.dashboard.killed_writers URL CODE TIMES` lets several processes cast ballots and
kills them, so many times over; it prints each vote that was acknowledged: group, then how often.
"""

import os
import signal
import sys
from random import Random
from time import sleep

from dashboard.votes.ballots import Ballots
from model.group.ballot import Ballot

AT_ONCE = 3


def cast_for_ever(url: str, code: str, group: str, say: int) -> None:
    """Cast one group's ballot again and again, its first weight counting up."""
    store, token = Ballots(url), f"token of {group}"
    for count in range(1, 1_000_000):
        store.cast(code, token, Ballot(group, {"sunlight": count, "views": 1}, -1.0))
        os.write(say, f"{group} {count}\n".encode())


def acknowledged(url: str, code: str, time: int) -> str:
    """What several writers heard back before they were killed."""
    random, running = Random(time), []  # noqa: S311 - no secret
    for number in range(AT_ONCE):
        read, write = os.pipe()
        writer = os.fork()
        if not writer:
            cast_for_ever(url, code, f"g{time}-{number}", write)
        os.close(write)
        running.append((writer, read))
    heard = ""
    for writer, read in running:
        heard += os.read(read, 4096).decode()  # the first is acknowledged
        sleep(random.uniform(0.0, 0.08))
        os.kill(writer, signal.SIGKILL)
        os.waitpid(writer, 0)
        with os.fdopen(read) as rest:
            heard += rest.read()
    return heard


if __name__ == "__main__":
    url, code, times = sys.argv[1:]
    for time in range(int(times)):
        sys.stdout.write(acknowledged(url, code, time))
