"""First pages made while nobody waits, for a class that comes all at once."""

from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import Any
from weakref import WeakSet

from tornado.ioloop import PeriodicCallback

from dashboard.keeping.working_copy import WorkingCopy
from dashboard.shell import Shell
from model.survey.faults import SurveyFaults
from model.trees import CatalogueFaults

MOST = 6  # apps in waiting, some 25 MB each
PAUSE = 1500  # ms between two that are made


class Readied:
    """Apps of a folder as it is saved, each for one visitor who has changed nothing yet."""

    def __init__(self, folder: Path, make: Callable[[], Shell]) -> None:
        self.folder, self._make = folder, make
        self._made: list[Shell] = []
        self._of: object = None  # what the folder held when they were made
        self._there: WeakSet[Shell] = WeakSet()

    def begin(self) -> None:
        """Make them from now on, on the server's loop, one at a time."""
        PeriodicCallback(self.more, PAUSE).start()

    def taken(self, copy: WorkingCopy) -> Shell | None:
        """One for the visitor of a working copy; None where it must be made for them alone."""
        if not self._made or copy.changed or look_of(self.folder) != self._of:
            return None
        shell = self._made.pop()
        shell.session.copy = copy
        return shell

    def more(self) -> None:
        """Make one more, when there are too few and nobody is there who would wait meanwhile."""
        now = look_of(self.folder)
        if now != self._of:
            self._made.clear()
            self._of = now
        if len(self._made) < MOST and not self._there:
            with suppress(SurveyFaults, CatalogueFaults, OSError):  # whoever comes is told
                self._made.append(self._make())

    def given(self, shell: Shell) -> None:
        """Know of an app that a visitor now has."""
        self._there.add(shell)

    def __len__(self) -> int:
        return len(self._made)


def look_of(folder: Path) -> Any:
    """What a folder's files look like from outside: name, size and time of each."""
    try:
        found = [(path.name, path.stat()) for path in sorted(folder.iterdir())]
    except OSError:
        return None
    return [(name, one.st_size, one.st_mtime_ns) for name, one in found]
