"""Votes on this server: the store, the land they are about, and what the groups agree on.

All that is slow or shared is kept here once for the phones, the wall and the teacher: a study is
opened once for each folder and only read, an agreement is reckoned once for each change.
"""

import asyncio
import time
from collections import OrderedDict
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from threading import RLock
from typing import Any, TypeVar

from dashboard.join.judge import Judge
from dashboard.join.reach import Reach
from dashboard.join.subject import Subject
from dashboard.keeping.opened import Opened
from dashboard.votes.ballots import Ballots, Session
from model.group.agreement import Agreement, agreement
from model.group.second_round import Movement, movement
from model.study import Study

FRESH = 0.3  # s for which a session is not asked for again, however many phones ask
KEPT = 16  # studies and agreements in memory
Done = TypeVar("Done")
_VOTINGS: dict[Opened, "Voting"] = {}
_ONE = RLock()


class Voting:
    """The votes that a server knows about, over the folders that it keeps open."""

    def __init__(self, opened: Opened, store: Ballots | None = None) -> None:
        self.opened, self._store = opened, store
        self.reach = Reach(0)  # where the app listens, and how people come to it
        self.pool = ThreadPoolExecutor(max_workers=4, thread_name_prefix="treestead-vote")
        self._lock, self._seen = RLock(), OrderedDict[str, tuple[float, Session]]()
        self._reckoning = RLock()  # held for long, so never waited for on the server's loop
        self._judged: OrderedDict[Any, tuple[Study, int, Judge]] = OrderedDict()
        self._agreed: OrderedDict[Any, Agreement] = OrderedDict()

    @classmethod
    def of(cls, opened: Opened) -> "Voting":
        """The one voting of a folder that is kept open."""
        with _ONE:
            if opened not in _VOTINGS:
                _VOTINGS[opened] = cls(opened)
            return _VOTINGS[opened]

    @property
    def store(self) -> Ballots:
        """The store, opened when it is first needed."""
        with self._lock:
            if self._store is None:
                self._store = Ballots()
            return self._store

    async def off(self, work: Callable[..., Done], *given: Any) -> Done:
        """The result of work done off the server's loop."""
        return await asyncio.get_running_loop().run_in_executor(self.pool, work, *given)

    def session(self, code: str) -> Session:
        """A session as it was at most a moment ago; Refused where there is none."""
        seen = self._seen.get(code)
        if seen is not None and time.monotonic() - seen[0] < FRESH:
            return seen[1]
        found = self.store.session(code)
        with self._lock:
            self._seen[code] = time.monotonic(), found
            while len(self._seen) > KEPT:
                self._seen.popitem(last=False)
        return found

    def stale(self, code: str) -> None:
        """Ask for a session anew, since it was just changed here."""
        with self._lock:
            self._seen.pop(code, None)

    def judge(self, session: Session) -> Judge:
        """The judge of what a session is about."""
        return self._land(session)[2]

    def study(self, session: Session) -> Study:
        """The study that a session judges: shared, so only to be read."""
        return self._land(session)[0]

    def agreement(self, session: Session, round: int) -> Agreement | None:  # noqa: A002 - the word people use
        """What the groups of a round agree on, None where none has voted."""
        study, place, _judge = self._land(session)
        key = (session.code, session.created, session.version, round)
        with self._reckoning:
            if key in self._agreed:
                return self._agreed[key]
            ballots = self.store.ballots(session.code, round)
            if not ballots:
                return None
            return _kept(self._agreed, key, agreement(study, ballots, place))

    def movement(self, session: Session) -> Movement | None:
        """What moved since the round before, None where there is nothing to compare."""
        if session.round < 2:
            return None
        first = self.agreement(session, session.round - 1)
        second = self.agreement(session, session.round)
        return None if first is None or second is None else movement(first, second)

    def _land(self, session: Session) -> tuple[Study, int, Judge]:
        """Study, place and judge of a session, opened once and again after its files change."""
        subject = Subject.read(session.site)
        folder = Path(subject.folder)
        if not folder.is_dir():  # a copy that was given up or saved: the folder itself is judged
            folder = self.opened.folder
        key = (subject, stamp(folder))
        with self._reckoning:
            if key in self._judged:
                return self._judged[key]
            study = self.opened.study(folder)
            place = subject.place(study)
            return _kept(self._judged, key, (study, place, Judge.at(study, place)))


def stamp(folder: Path) -> tuple[tuple[str, int, int, int], ...]:
    """What tells whether a file of a folder changed, even where a clock was set back meanwhile."""
    files = sorted(path for path in folder.iterdir() if not path.name.startswith("."))
    states = [(path.name, path.stat()) for path in files]
    return tuple((name, one.st_ino, one.st_mtime_ns, one.st_size) for name, one in states)


def _kept(cache: OrderedDict[Any, Done], key: Any, value: Done) -> Done:
    """A value, remembered in place of the oldest."""
    cache[key] = value
    while len(cache) > KEPT:
        cache.popitem(last=False)
    return value
