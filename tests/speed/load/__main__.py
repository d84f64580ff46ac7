"""Open a workshop on servers of our own and say how it went: python -m tests.speed.load."""

import argparse
import os
import sys
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from dashboard.join.subject import Subject
from dashboard.votes.ballots import Ballots
from model.opening import open_study
from model.study import Study
from tests.dashboard.postgresql import Missing, server
from tests.model.demo import DEMO

from .checking import lost_ballots, strange_answers
from .promises import broken, table
from .servers import servers
from .workshop import Asked, Run, workshop

CORES = 2


def main(arguments: Sequence[str] | None = None) -> int:
    """0 when every promise was held, 1 when one was broken, 2 when there is no PostgreSQL."""
    given = _given(arguments)
    cores = sorted(os.sched_getaffinity(0))[: given.cores]
    os.sched_setaffinity(0, cores)
    asked = Asked(given.full, given.phones, 60 * given.minutes, given.window, given.again)
    with tempfile.TemporaryDirectory(prefix="load-") as folder:
        os.environ["TREESTEAD_CACHE"] = os.environ.get("TREESTEAD_CACHE", f"{folder}/cache")
        study = open_study(DEMO)
        try:
            with _store(given.postgres, folder) as url:
                run, faults = _held(asked, study, url, folder, given.processes)
        except Missing as error:
            print(f"PostgreSQL: {error}")
            return 2
    print(table(asked, run))
    said = broken(run, faults)
    print("\n".join(said) if said else "every promise was held")
    return 1 if said else 0


def _given(arguments: Sequence[str] | None) -> argparse.Namespace:
    parser = argparse.ArgumentParser("python -m tests.speed.load", description=__doc__)
    parser.add_argument("--minutes", type=float, default=5.0)
    parser.add_argument("--full", type=int, default=10, help="people at the app (10)")
    parser.add_argument("--phones", type=int, default=30, help="participants (30)")
    parser.add_argument("--window", type=float, default=10.0, help="s within which all come (10)")
    parser.add_argument("--processes", type=int, default=1, help="servers (1)")
    parser.add_argument("--postgres", action="store_true", help="ballots in PostgreSQL")
    parser.add_argument("--cores", type=int, default=CORES, help="for servers and people (2)")
    parser.add_argument(
        "--again", type=int, default=2, help="how often as many come and go afterwards (2)"
    )
    return parser.parse_args(arguments)


@contextmanager
def _store(postgres: bool, folder: str) -> Iterator[str]:
    if postgres:
        with server() as url:
            yield url
    else:
        yield f"sqlite:///{folder}/ballots.sqlite3"


def _held(
    asked: Asked, study: Study, url: str, folder: str, processes: int
) -> tuple[Run, list[str]]:
    """The workshop, and what was wrong with its answers and ballots."""
    store = Ballots(url)
    key = store.new_session(Subject.chosen(study, Path(DEMO)).text)
    with servers(processes, folder, url) as begun:
        run = workshop(asked, begun, key.code)
    kept, standing = store.export(key.code, history=True), store.export(key.code)
    store.close()
    return run, [
        *strange_answers(run.visitors, study),
        *lost_ballots(run.phones, kept, standing),
    ]


if __name__ == "__main__":
    sys.exit(main())
