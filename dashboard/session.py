"""One visitor's session: the study, the page that is open, the working copy and the long work."""

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any, TypeVar

import panel as pn
import param

from dashboard import links
from dashboard.keeping.drafts import written
from dashboard.keeping.opened import Opened
from dashboard.keeping.saving import ChangedMeanwhile
from dashboard.keeping.working_copy import WorkingCopy
from dashboard.long_work import Asker, Progress, outcome, unforeseen
from dashboard.units import spoken
from model.decision.weights import carried
from model.language import _, marked
from model.study import Study
from model.survey.faults import SurveyFaults
from model.trees import CatalogueFaults

__all__ = ["Progress", "Session"]

Done = TypeVar("Done")


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
    saves = param.Boolean(True, doc="Whether this visitor may write into the folder itself.")

    def __init__(
        self, study: Study, opened: Opened | None = None, copy: WorkingCopy | None = None
    ) -> None:
        super().__init__(study=study)
        self.opened, self.copy = opened, copy
        self.memory: dict[str, Any] = {}
        self.settled: Callable[[], None] = lambda: None
        self._works: dict[object, str] = {}

    @classmethod
    def begun(cls, opened: Opened, visitor: str = "") -> "Session":
        """The session of a visitor, with the copy they left behind if there is one.

        A copy that can no longer be read is said and left aside; the folder itself is opened.
        """
        copy = WorkingCopy(opened.folder, visitor)
        try:
            session = cls(opened.study(copy.folder), opened, copy)
        except (SurveyFaults, CatalogueFaults) as error:
            if not copy.changed:
                raise
            session = cls(opened.study(), opened, copy)
            session.said = f"Your working copy was left aside, it has faults: {error}"
        else:
            session.said = _(CUT_SHORT) if copy.cut_short else ""
        return session

    @property
    def folder(self) -> Path | None:
        """The folder whose files the pages read: the visitor's own copy where there is one."""
        return self.copy.folder if self.copy is not None else self.study.site.folder

    def keep(self, name: str, content: str | bytes) -> bool:
        """Write a file into the visitor's working copy; a sentence is said when that fails."""
        return self.keep_all({name: content})

    def keep_all(self, files: Mapping[str, str | bytes | None]) -> bool:
        """Write files that belong together, all or none; one without content is taken out.

        False, and a sentence is said, when that fails. Without a working copy nothing is kept.
        """
        copy = self.copy
        if copy is None:
            return True
        try:
            if len(files) > 1:
                with copy.together() as folder:
                    for name, content in files.items():
                        _put(folder / name, content)
            else:
                for name, content in files.items():
                    copy.remove(name) if content is None else copy.write(name, content)
        except OSError as error:
            names = ", ".join(files)
            said = _("Not kept: {names} could not be written ({why}).")
            self.said = said.format(names=names, why=error.strerror)
            return False
        return True

    def reopen(self, stays: bool = True) -> None:
        """Open the working copy anew after its files have changed; weights and choices may stay.

        Raises SurveyFaults or CatalogueFaults when the files have faults; the study then stays.
        """
        if self.opened is None or self.copy is None:
            raise ValueError("this session has no folder to open anew")
        study = self.opened.study(self.copy.folder)
        if stays:
            _follow(study, self.study)
        self.study = study

    def save(self) -> None:
        """Save the working copy into the folder, and say what came of it."""
        if self.copy is None or not self.saves:
            return
        try:
            saved = self.copy.save()
        except ChangedMeanwhile as error:
            self.said = str(error)
        except OSError as error:
            self.said = _("Not saved: {why}.").format(why=error.strerror)
        else:
            names = ", ".join(path.name for path in saved.files) or _("nothing had changed")
            self.said = _("Saved into the folder: {names}.").format(names=names)
            if saved.left:
                left = _("Changed there by another meanwhile, and left so: {names}.")
                self.said += f" {left.format(names=', '.join(saved.left))}"
                self._reopened()

    def give_up(self) -> None:
        """Give up the working copy, and show the folder as it was saved."""
        if self.copy is None:
            return
        try:
            self.copy.discard()
        except OSError as error:
            self.said = _("Not given up: {why}.").format(why=error.strerror)
            return
        self.memory.clear()
        self.said = _("This is the folder as it was saved.")
        self._reopened(stays=False)

    def _reopened(self, stays: bool = True) -> None:
        try:
            self.reopen(stays)
        except (SurveyFaults, CatalogueFaults) as error:
            self.said = str(error)

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
        `twin`). `then(result)` runs back on the page. A ValueError is said as a sentence; of any
        other error it is said that it did not work. Once the session is over, nothing more is done.
        """
        mark = object()
        self._say(mark, doing)
        document = pn.state.curdoc

        def say(words: str) -> None:
            if mark in self._works:
                self._say(mark, words)

        if document is None or not document.session_context:
            self._finished(mark, then, *outcome(work, say))
            return

        def told(result: Any, fault: str) -> None:
            self._finished(mark, then, result, fault)

        Asker(document).submit(work, say, told)

    def _say(self, mark: object, words: str) -> None:
        """Say what is being done; of several works the one that was asked for last."""
        self._works[mark] = words
        self.doing = list(self._works.values())[-1]

    def _finished(self, mark: object, then: Callable[[Any], None], result: Any, fault: str) -> None:
        self._works.pop(mark)
        self.doing = ["", *self._works.values()][-1]
        if fault:
            self.said = fault
            return
        try:
            then(result)
        except Exception:
            self.said = unforeseen()
            raise


def _put(path: Path, content: str | bytes | None) -> None:
    if content is None:
        path.unlink(missing_ok=True)
    else:
        written(path, content)


CUT_SHORT = marked(
    "Saving into the folder was cut short: your changes are all here; save again to finish it."
)


def _follow(study: Study, before: Study) -> None:
    """Set a study as the one before it; a factor that was not judged there keeps its own weight."""
    for name, settings in before.settings.items():
        if name in study.settings:
            figures = settings.figures() | {"curve": settings.curve}
            study.settings[name].param.update(**figures)
    choices = links.query(before)
    choices.pop("weights")
    links.follow(study, choices)
    shares = dict(zip((factor.name for factor in before.factors), before.weights, strict=True))
    names = [factor.name for factor in study.factors]
    known = [name in shares for name in names]
    study.weights = carried([shares.get(name, 0.0) for name in names], known, study.weights)
