"""The visitor's sketch: its steps, its faults, its keeping in the working copy, its judging."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from dashboard.session import Progress, Session
from model.language import _
from model.sketched import judged_sketch
from model.study import Study
from model.survey import SurveyFaults, same_site, write_site
from model.survey.editing import History, Mark, Sketch, sketch_of
from model.survey.faults import Fault
from model.survey.folder import Folder
from model.survey.lists import OPTIONS_FILE, options
from model.survey.sketch_faults import WHOLE, Checked
from model.survey.sketch_file import FILE, sketch_from, sketch_text

MEMORY = "survey"


class Work:
    """What is on the drawing board. It outlives a rebuild of the pages."""

    def __init__(self, session: Session) -> None:
        self.session = session
        self.history = History(self._begun())
        self.chosen, self.panel, self.new_site = 0, "feature", False
        self.checked: Checked = self._judged()
        self.kept = self.judged = session.study.site
        self.good: tuple[Mark, ...] = self.sketch.marks if not self.faults else self._good()
        self.told: Callable[[], None] = lambda: None
        session.param.watch(lambda event: self._left(event.old), "page")

    @classmethod
    def of(cls, session: Session) -> "Work":
        """The session's work, begun anew when the survey was changed elsewhere."""
        work = session.memory.get(MEMORY)
        site = session.study.site
        if work is None or not same_site(replace(work.kept, options=site.options), site):
            work = session.memory[MEMORY] = cls(session)
        return work

    @property
    def sketch(self) -> Sketch:
        """The sketch as it is now."""
        return self.history.present

    @property
    def mark(self) -> Mark | None:
        """The mark that is chosen."""
        return self.sketch.mark(self.chosen)

    @property
    def faults(self) -> dict[int, tuple[Fault, ...]]:
        """Faults by the number of their mark."""
        return self.checked.faults

    @property
    def is_stale(self) -> bool:
        """Whether something was drawn that has not been judged."""
        site = self.session.study.site
        return bool(self.faults) or not same_site(replace(self.kept, options=site.options), site)

    def step(self, sketch: Sketch, chosen: int | None = None) -> None:
        """Take a step, and keep it in the working copy."""
        self._show(self.history.after(sketch), chosen)

    def undo(self) -> None:
        """Take a step back."""
        self._show(self.history.undone(), None)

    def redo(self) -> None:
        """Make a step again that was taken back."""
        self._show(self.history.redone(), None)

    def _show(self, history: History, chosen: int | None) -> None:
        changed = history.present is not self.sketch
        self.history = history
        if chosen is not None:
            self.chosen = chosen
        if self.mark is None:
            self.chosen = 0
        if changed:
            self.checked = self._judged()
            self._keep()
        self.told()

    def _judged(self) -> Checked:
        return judged_sketch(self.sketch, self.session.study.catalogue)

    def _begun(self) -> Sketch:
        """The unfinished sketch that was left, or the survey as it is."""
        site, folder = self.session.study.site, self.session.folder
        if self.session.copy is not None and folder is not None and (folder / FILE).is_file():
            try:
                return sketch_from((folder / FILE).read_text(encoding="utf-8"), site)
            except (OSError, ValueError) as error:
                self.session.said = str(error)
        return sketch_of(site)

    def _good(self) -> tuple[Mark, ...]:
        return sketch_of(self.session.study.site).marks

    def _keep(self) -> None:
        """Write the site into the working copy; while there are faults, the last good marks."""
        copy = self.session.copy
        if copy is None:
            return
        if not self.faults:
            self.good = self.sketch.marks
        site = judged_sketch(replace(self.sketch, marks=self.good), self.session.study.catalogue)
        try:
            listed = Folder(copy.begun())
            if listed.present([OPTIONS_FILE]):
                short_list = options(listed)
                written = replace(site.site, options=short_list if not listed.faults else ())
            else:
                written = replace(site.site, options=())
            if self.faults:
                self.session.keep(FILE, sketch_text(self.sketch))
            with copy.together() as folder:
                if not self.faults:
                    (folder / FILE).unlink(missing_ok=True)
                write_site(replace(written, folder=folder), folder)
            self.kept = written
        except (OSError, ValueError) as error:
            self.session.said = _("Not kept: {why}").format(why=error)

    def judge(self) -> None:
        """Open the survey as drawn, its ground computed off the server's loop."""
        session = self.session
        if self.faults:
            count = sum(map(len, self.faults.values()))
            session.said = _(
                "Not judged yet: {count} to mend. The study still shows the survey as it was."
            ).format(count=count)
            self.told()
            return
        opened, copy = session.opened, session.copy
        if opened is None or copy is None:
            session.said = _("Not judged: this session has no folder to keep a survey in.")
            return

        def work(progress: Progress) -> Study:
            study = opened.study(copy.folder)
            for number, factor in enumerate(study.factors, start=1):
                what = factor.label.lower()
                said = _("Judging the survey: {what} ({number} of {count})")
                progress(said.format(what=what, number=number, count=len(study.factors)))
                study.measure(factor.name)
            return study

        session.run(_("Judging the survey"), work, self._done)

    def _done(self, _study: Study) -> None:
        session = self.session
        if self.new_site:
            self.new_site, self.panel = False, "feature"
        try:
            session.reopen()
        except (SurveyFaults, ValueError) as error:
            session.said = str(error)
            return
        session.said = _("Judged: every page now shows the survey as it is drawn.")
        session.settled()

    def _left(self, page: str) -> None:
        """Judge what was drawn when the page is left."""
        is_current = self.session.memory.get(MEMORY) is self
        if is_current and page == "survey" and self.session.page != "survey" and self.is_stale:
            self.judge()

    def replaced(self, site: Any) -> None:
        """Take a survey that was just read in the place of the one drawn, as one step."""
        self.step(sketch_of(site), 0)

    def site_faults(self) -> tuple[Fault, ...]:
        """Faults of the site at large."""
        return self.faults.get(WHOLE, ())
