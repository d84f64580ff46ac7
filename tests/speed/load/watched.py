"""The app's server in a process of its own, which says of itself how it is when asked.

Started as python -m tests.speed.load.watched and the arguments of `serve`. A line on its standard
input is a question (`report`, or `gather` to have what is unused let go first); the answer is a
line of JSON on its standard output.
"""

import gc
import json
import os
import sys
import threading
import time
from collections.abc import Callable
from queue import Queue

import psutil
from tornado.ioloop import IOLoop

from dashboard.__main__ import main
from dashboard.session import Session
from dashboard.visits.readied import Readied

BEAT = 0.02  # s


class Pulse(threading.Thread):
    """How late the server's loop comes to what is asked of it [s]."""

    def __init__(self, loop: IOLoop) -> None:
        super().__init__(daemon=True)
        self.loop, self.late = loop, []

    def run(self) -> None:
        """Ask again and again."""
        while True:
            asked, done = time.perf_counter(), threading.Event()
            self.loop.add_callback(done.set)
            done.wait()
            self.late.append(time.perf_counter() - asked)
            time.sleep(BEAT)


def report(pulse: Pulse, gather: bool) -> dict:
    """How the process is now; what the loop was late by is counted from the last report on."""
    held = _on_the_loop(pulse.loop, _held) if gather else None
    late, pulse.late = pulse.late, []
    used = psutil.Process()
    return {
        "memory": used.memory_info().rss,
        "seconds": sum(used.cpu_times()[:2]),
        "sessions": held,
        "late": late,
    }


def _held() -> int:
    """Sessions that the process holds for visitors, without those made ahead for nobody yet."""
    for _ in range(3):
        gc.collect()
    known = gc.get_objects()
    made = sum(len(one) for one in known if isinstance(one, Readied))
    return sum(isinstance(one, Session) for one in known) - made


def _on_the_loop(loop: IOLoop, ask: Callable[[], int]) -> int:
    """The answer, asked where the app works: from another thread its half-made tuples are seen."""
    answered: Queue[int] = Queue()
    loop.add_callback(lambda: answered.put(ask()))
    return answered.get()


def answer(pulse: Pulse) -> None:
    """Answer questions until there are no more."""
    for line in sys.stdin:
        told = json.dumps(report(pulse, line.strip() == "gather"))
        sys.stdout.write(f"{MARK}{told}\n")
        sys.stdout.flush()
    os._exit(0)  # whoever asked is gone


MARK = "watched: "

if __name__ == "__main__":
    pulse = Pulse(IOLoop.current())
    pulse.start()
    threading.Thread(target=answer, args=(pulse,), daemon=True).start()
    sys.exit(main(["serve", "--no-browser", *sys.argv[1:]]))
