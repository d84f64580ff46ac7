"""What was seen taken into the survey of the working copy, and taken back again."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

from dashboard.keeping.drafts import written
from dashboard.pages import survey_form as form
from dashboard.pages.survey_form import Field
from dashboard.session import Progress, Session
from model.language import _
from model.planting.year_after.observations import (
    IN_SURVEY,
    OBSERVATIONS_FILE,
    Observation,
    observations_text,
)
from model.planting.year_after.review import Review
from model.study import Study
from model.survey import SurveyFaults, write_site
from model.survey.archive import is_own_file
from model.survey.sketch_file import FILE as SKETCH_FILE

BEFORE = "survey before the review"


class IntoSurvey:
    """Corrections in words, the step that makes them, and the way back."""

    def __init__(self, session: Session, seen: Callable[[], tuple[Observation, ...]]) -> None:
        self.session, self.seen = session, seen
        self.made: Review | None = None

    def fields(self) -> list[Field]:
        """The corrections before they are made, or the way back."""
        shown: list[Field] = [form.heading(_("The survey, corrected"))]
        corrections = self.made.corrections if self.made else ()
        if corrections:
            shown.append(form.note(_("What was seen would change in the survey:")))
            shown += [form.note(_sentence(self.session.shown(one))) for one in corrections]
            main = form.main_button("take", _("Take what was seen into the survey"))
            shown.append(form.buttons("survey", main))
        else:
            shown.append(
                form.note(_("Nothing to change: soil or wet ground that was seen is shown here."))
            )
        if BEFORE in self.session.memory:
            shown.append(form.note(_("The survey holds what was seen.")))
            shown.append(form.buttons("survey", ("back", _("Back to the survey as it was"))))
        return shown

    def told(self, value: Any) -> None:
        """A button was pressed."""
        if value == "take":
            self._take()
        elif value == "back":
            self._back()

    def _take(self) -> None:
        session, made = self.session, self.made
        copy = session.copy
        if copy is None or session.opened is None or made is None:
            session.said = _("Not taken: this session has no folder to keep a survey in.")
            return
        if (copy.folder / SKETCH_FILE).is_file():
            session.said = _(
                "Not taken: on the Survey page something drawn has faults to mend first."
            )
            return
        taken = set(made.taken)
        seen = tuple(
            replace(one, note=f"{one.note} {IN_SURVEY}".strip())
            if (one.spot, one.what) in taken and not one.in_survey else one
            for one in self.seen()
        )  # fmt: skip
        try:
            before = _files(copy.begun())
            with copy.together() as folder:
                write_site(replace(made.site, folder=folder), folder)
                written(folder / OBSERVATIONS_FILE, observations_text(seen))
        except (OSError, ValueError) as error:
            session.said = _("Not taken: {why}").format(why=error)
            return
        session.memory.setdefault(BEFORE, before)
        self._judge(_("The survey holds what was seen. Back is at the foot of Review."))

    def _back(self) -> None:
        copy = self.session.copy
        before: dict[str, bytes] | None = self.session.memory.pop(BEFORE, None)
        if copy is None or before is None:
            return
        gone = dict.fromkeys(_files(copy.folder).keys() - before.keys())
        self.session.keep_all({**gone, **before})
        self._judge(_("The survey is as it was before."))

    def _judge(self, said: str) -> None:
        """Open the working copy anew, its ground computed off the server's loop."""
        session = self.session
        opened, copy = session.opened, session.copy
        if opened is None or copy is None:
            return
        session.memory["review steps"] = []

        def work(progress: Progress) -> Study:
            study = opened.study(copy.folder)
            for number, factor in enumerate(study.factors, start=1):
                told = _("Judging the survey: {what} ({number} of {count})")
                what, count = factor.label.lower(), len(study.factors)
                progress(told.format(what=what, number=number, count=count))
                study.measure(factor.name)
            return study

        def then(_study: Study) -> None:
            try:
                session.reopen()
                session.said = said
            except SurveyFaults as error:
                session.said = str(error)
            session.settled()

        session.run(_("Judging the survey"), work, then)


def _files(folder: Path) -> dict[str, bytes]:
    return {file.name: file.read_bytes() for file in folder.iterdir() if is_own_file(file)}


def _sentence(words: str) -> str:
    return words if words.startswith("pH") else words[:1].upper() + words[1:]
