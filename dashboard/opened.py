"""Studies of one folder for many visitors: each has a study of its own, all share the ground."""

from collections.abc import Callable
from pathlib import Path

from model.ground import Ground
from model.opening import STUDY_FILE, open_study
from model.study import Study


class Opened:
    """A folder kept open. The ground is computed once and again only after a file has changed."""

    def __init__(self, folder: str | Path) -> None:
        self.folder = Path(folder)
        self._stamp: tuple[tuple[str, int], ...] = ()
        self._ground: Ground | None = None

    def study(self) -> Study:
        """A visitor's own study, over the ground that all visitors share."""
        stamp = self._files()
        if stamp != self._stamp:
            self._stamp, self._ground = stamp, None
        study = open_study(self.folder, ground=self._ground)
        self._ground = study.ground
        return study

    def prepare(self, say: Callable[[str], None]) -> None:
        """Compute the ground before the first visitor comes, saying what is being computed."""
        study = self.study()
        for number, factor in enumerate(study.factors, start=1):
            say(f"computing the ground: {factor.label.lower()} ({number} of {len(study.factors)})")
            study.measure(factor.name)

    def _files(self) -> tuple[tuple[str, int], ...]:
        """Names and times of the survey's files; saved choices are no part of the ground."""
        files = (path for path in self.folder.iterdir() if path.name != STUDY_FILE)
        return tuple(sorted((path.name, path.stat().st_mtime_ns) for path in files))
