"""One visitor's session: the study, the page that is open, the working copy and the long work."""

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any, TypeVar

import panel as pn
import param

from dashboard import links
from dashboard.opened import Opened
from dashboard.units import spoken
from dashboard.working_copy import WorkingCopy
from model.study import Study
from model.survey.faults import SurveyFaults
from model.trees import CatalogueFaults

Done = TypeVar("Done")
Progress = Callable[[str], None]
# Long work of all visitors waits in one line, so that the sliders of the others keep their turn.
_LINE = ThreadPoolExecutor(max_workers=1, thread_name_prefix="treestead")


class Session(param.Parameterized):
    """What a visitor's pages share. `study` is replaced when the survey or the short list changes.

    Pages watch `study` through the shell, which builds them anew; what a page must remember beyond
    that it puts into `memory` under its own name.
    """

    page = param.String("weigh", doc="The page that is open.")
    study: Any = param.ClassSelector(class_=Study, doc="The study all pages show.")
    feet = param.Boolean(False, doc="Lengths in feet and inches, not in metres.")
    doing = param.String("", doc="The long work under way, in words; empty when there is none.")
    said = param.String("", doc="A sentence for the visitor about what just happened.")

    def __init__(
        self, study: Study, opened: Opened | None = None, copy: WorkingCopy | None = None
    ) -> None:
        super().__init__(study=study)
        self.opened, self.copy = opened, copy
        self.memory: dict[str, Any] = {}
        self.settled: Callable[[], None] = lambda: None

    @classmethod
    def begun(cls, opened: Opened, visitor: str = "") -> "Session":
        """The session of a visitor, with the copy they left behind if there is one.

        A copy that can no longer be read is said and left aside; the folder itself is opened.
        """
        copy = WorkingCopy(opened.folder, visitor)
        try:
            return cls(opened.study(copy.folder), opened, copy)
        except (SurveyFaults, CatalogueFaults) as error:
            if not copy.changed:
                raise
            session = cls(opened.study(), opened, copy)
            session.said = f"Your working copy was left aside, it has faults: {error}"
            return session

    @property
    def folder(self) -> Path | None:
        """The folder whose files the pages read: the visitor's own copy where there is one."""
        return self.copy.folder if self.copy is not None else self.study.site.folder

    def keep(self, name: str, content: str | bytes) -> None:
        """Write a file into the visitor's working copy; a sentence is said when that fails."""
        if self.copy is None:
            return
        try:
            self.copy.write(name, content)
        except OSError as error:
            self.said = f"Not kept: {name} could not be written ({error.strerror})."

    def reopen(self) -> None:
        """Open the working copy anew after its files have changed; weights and choices stay.

        Raises SurveyFaults or CatalogueFaults when the files have faults; the study then stays.
        """
        if self.opened is None or self.copy is None:
            raise ValueError("this session has no folder to open anew")
        study = self.opened.study(self.copy.folder)
        for name, settings in self.study.settings.items():
            if name in study.settings:
                figures = settings.figures() | {"curve": settings.curve}
                study.settings[name].param.update(**figures)
        links.follow(study, links.query(self.study))
        self.study = study

    def twin(self) -> Study:
        """A study of its own with the same choices, for long work off the server's loop."""
        study, ground = self.study, self.study.ground
        twin = Study(study.site, study.catalogue, study.options, ground=ground)
        twin.restore(study.snapshot())
        twin.weight_sets = study.weight_sets
        return twin

    def shown(self, text: str) -> str:
        """A sentence as this visitor reads it, in the units they chose."""
        return spoken(text, self.feet)

    def run(
        self, doing: str, work: Callable[[Progress], Done], then: Callable[[Done], None]
    ) -> None:
        """Do long work off the server's loop, say what is being done, and hand over its result.

        `work(progress)` may say how it gets on; it must not touch the session's own study (use
        `twin`). `then(result)` runs back on the page. A ValueError is said as a sentence.
        """
        self.doing = doing
        document = pn.state.curdoc
        if document is None or not document.session_context:
            self._finished(then, *_outcome(work, lambda words: setattr(self, "doing", words)))
            return

        def back(act: Callable[[], Any]) -> None:
            document.add_next_tick_callback(act)

        def job() -> None:
            say = lambda words: back(lambda: setattr(self, "doing", words))  # noqa: E731 -- one line
            result, fault = _outcome(work, say)
            back(lambda: self._finished(then, result, fault))

        _LINE.submit(job)

    def _finished(self, then: Callable[[Any], None], result: Any, fault: str) -> None:
        self.doing = ""
        if fault:
            self.said = fault
        else:
            then(result)


def _outcome(work: Callable[[Progress], Any], say: Progress) -> tuple[Any, str]:
    """What the work gave, and what went wrong in words."""
    try:
        return work(say), ""
    except (ValueError, OSError) as error:
        return None, str(error)
