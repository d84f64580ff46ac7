"""What was seen, typed in, mended, removed or loaded from a file; every step is kept."""

import tempfile
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

from dashboard.pages import survey_form as form
from dashboard.pages.review_cards import day
from dashboard.pages.review_watch_list import COLUMNS, watch_list_page, watch_rows
from dashboard.pages.survey_form import Field
from dashboard.session import Session
from model.language import _
from model.planting.year_after.observations import (
    KINDS,
    OBSERVATIONS_FILE,
    Observation,
    observations_text,
    read_observations,
    typed_observations,
)
from model.planting.year_after.review import watched_spots
from model.planting.year_after.standing import StandingTree
from model.planting.year_after.watched import WATCHED
from model.survey.faults import SurveyFaults

LARGEST = 1_000_000  # bytes
BLANK = {"spot": "", "what": "sun_hours", "value": "", "plus_minus": "", "date": "", "note": ""}


class Watching:
    """The observations of a visitor's working copy and the form over them."""

    def __init__(self, session: Session, trees: tuple[StandingTree, ...]) -> None:
        self.session, self.trees = session, trees
        self.spots = watched_spots(session.study, trees)
        self.seen: tuple[Observation, ...] = ()
        self.faults: list[str] = []
        self.wrong: dict[str, str] = {}
        self.draft, self.chosen = dict(BLANK), -1
        self.changed: Callable[[], None] = lambda: None
        self.ready: tuple[str, bytes] | None = None
        self.read()

    @property
    def past(self) -> list[tuple[Observation, ...]]:
        """Earlier states, for undoing; they outlive a rebuild of the page."""
        return list(self.session.memory.setdefault("review steps", []))

    def read(self) -> None:
        """Read the file again; its faults are said, and nothing is taken from it then."""
        folder = self.session.folder
        try:
            self.seen = read_observations(folder, self.spots) if folder is not None else ()
            self.faults = []
        except SurveyFaults as error:
            self.seen, self.faults = (), [str(fault) for fault in error.faults]

    def keep(self, seen: tuple[Observation, ...]) -> None:
        """Take other observations in place of these, as a step that can be taken back."""
        self.session.memory["review steps"] = [*self.past, self.seen]
        self._write(seen)

    def _write(self, seen: tuple[Observation, ...]) -> None:
        self.seen, self.faults, self.wrong = seen, [], {}
        self.draft, self.chosen = {**BLANK, "spot": self.draft["spot"]}, -1
        self.session.keep(OBSERVATIONS_FILE, observations_text(seen))
        self.changed()

    def told(self, name: str, value: Any) -> None:
        """A field was filled in or a button pressed."""
        if name in BLANK:
            self.draft[name] = str(value)
            self.wrong.pop(name, None)
            if name == "what":
                self.changed()
        elif name == "pick":
            self._choose(str(value))
        elif name == "upload":
            self._load(value)
        elif name == "do":
            steps = {
                "add": self._add,
                "remove": self._remove,
                "undo": self._undo,
                "cancel": lambda: self._choose(""),
                "download": self._download,
                "print": self._print,
            }
            steps.get(str(value), lambda: None)()

    def _add(self) -> None:
        """Check what was typed by the same rules as a file's, and keep it."""
        others = [one for number, one in enumerate(self.seen) if number != self.chosen]
        try:
            (new,) = typed_observations([self.draft], self.spots)
        except SurveyFaults as error:
            self.wrong = {
                fault.field: _("found {found}, expected {expected}").format(
                    found=fault.found, expected=fault.expected
                )
                for fault in error.faults
            }
            self.changed()
            return
        if any((o.spot, o.date, o.what) == (new.spot, new.date, new.what) for o in others):
            self.wrong = {"date": _("that was seen on that day already: choose it in the list")}
            self.changed()
            return
        at = self.chosen if self.chosen >= 0 else len(others)
        self.keep((*others[:at], new, *others[at:]))

    def _remove(self) -> None:
        if 0 <= self.chosen < len(self.seen):
            self.keep(tuple(o for number, o in enumerate(self.seen) if number != self.chosen))

    def _undo(self) -> None:
        past = self.past
        if past:
            self.session.memory["review steps"] = past[:-1]
            self._write(past[-1])

    def _choose(self, ident: str) -> None:
        """Take a row of the list into the form; none begins a new one."""
        self.chosen = int(ident) if ident.isdigit() and int(ident) < len(self.seen) else -1
        self.wrong = {}
        self.draft = dict(BLANK)
        if self.chosen >= 0:
            one = self.seen[self.chosen]
            self.draft = {
                "spot": one.spot,
                "what": one.what,
                "value": form.plain(one.value),
                "plus_minus": "" if one.assumed else form.plain(one.plus_minus),
                "date": one.date.isoformat(),
                "note": one.note,
            }
        self.changed()

    def _load(self, value: Any) -> None:
        """Take the observations of a file in place of these, when it has no fault."""
        try:
            _name, data = form.uploaded(value, LARGEST)
            with tempfile.TemporaryDirectory() as aside:
                file = Path(aside) / OBSERVATIONS_FILE
                file.write_bytes(data)
                seen = read_observations(file, self.spots)
        except SurveyFaults as error:
            self.faults = [str(fault) for fault in error.faults]
        except (ValueError, OSError) as error:
            self.faults = [str(error)]
        else:
            self.keep(seen)
            return
        self.changed()

    def _download(self) -> None:
        self.ready = (OBSERVATIONS_FILE, observations_text(self.seen).encode("utf-8"))
        self.changed()

    def _print(self) -> None:
        text = watch_list_page(self.session.study, self.trees)
        self.ready = ("watch_list.html", text.encode("utf-8"))
        self.changed()

    def fields(self) -> list[Field]:
        """The form and the list."""
        editing = self.chosen >= 0
        main = form.main_button("add", _("Save the change") if editing else _("Add what was seen"))
        more = [("remove", _("Remove")), ("cancel", _("Leave it"))] if editing else []
        undo = {"id": "undo", "label": _("Undo"), "disabled": not self.past}
        head = _("Mend what was seen") if editing else _("What did you see?")
        return [
            form.heading(head),
            *(form.note(one, "bad") for one in self.faults[:8]),
            *self._asked(),
            form.buttons("do", main, *more, undo),
            *self._list(),
            *self._watch_list(),
        ]

    def _asked(self) -> list[Field]:
        """The fields of one observation, each with its fault beside it."""
        kind, draft = KINDS.get(self.draft["what"], WATCHED["sun_hours"]), self.draft
        spots = [("", _("choose")), *((spot, spot) for spot in self.spots)]
        whats = [(one.name, f"{one.label} [{one.unit}]") for one in WATCHED.values()]
        if kind.name not in WATCHED:
            whats.append((kind.name, f"{kind.label} [{kind.unit}]"))
        usual = _("blank: the usual {off} {unit}").format(
            off=f"{kind.plus_minus:g}", unit=kind.unit
        )
        text = {"kind": "text", "required": True}
        return [
            form.choice("spot", _("Tree or peg"), spots, draft["spot"], **self._fault("spot")),
            form.choice("what", _("What"), whats, kind.name, **self._fault("what")),
            {
                **text, "name": "value", "kind": "number",
                "label": f"{_('How much')} [{kind.unit}]",
                "value": draft["value"], "help": kind.meaning, **self._fault("value"),
            },
            *(
                [{
                    "kind": "number", "name": "plus_minus", "label": _("Give or take"),
                    "value": draft["plus_minus"], "help": usual, **self._fault("plus_minus"),
                }]
                if not kind.yearly and kind.name != "drought_stress" else []
            ),
            {
                **text, "name": "date", "label": _("Day, or last day of the season watched"),
                "value": draft["date"], "help": _("year-month-day, such as {day}").format(
                    day=self._example()
                ), **self._fault("date"),
            },
            {
                "kind": "text", "name": "note", "label": _("Note"), "value": draft["note"],
                **self._fault("note"),
            },
        ]  # fmt: skip

    def _fault(self, name: str) -> dict[str, str]:
        return {"fault": self.wrong.get(name, "")}

    def _example(self) -> str:
        return (max((one.date for one in self.seen), default=date.today())).isoformat()

    def _list(self) -> list[Field]:
        """What was seen, each leading to the form."""
        items = [
            {
                "id": str(number),
                "label": f"{one.spot}: {one.kind.label} {one.value:g} {one.kind.unit}",
                "note": self.session.shown(f"{day(one.date)}. {one.note}"),
                "current": number == self.chosen,
            }
            for number, one in enumerate(self.seen)
        ]
        label = _("Seen so far ({count})").format(count=len(items))
        listed = [{"kind": "list", "name": "pick", "label": label, "items": items}]
        return [
            {"kind": "fold", "label": label, "fields": listed, "open": self.chosen >= 0},
            {
                "kind": "fold", "label": _("Load or save as a file"), "open": False, "fields": [
                    form.upload("upload", _("Load observations.csv"), ".csv,text/csv", LARGEST,
                                _("takes the place of what is in the list; Undo brings it back")),
                    form.buttons("do", ("download", _("Download observations.csv"))),
                ],
            },
        ]  # fmt: skip

    def _watch_list(self) -> list[Field]:
        rows = watch_rows(self.session.study.ground.latitude)
        fields = [
            form.note(_("In the first year, for each tree and each peg you still think of:")),
            form.table(_("What to watch"), map(_, COLUMNS), rows),
            form.buttons("do", ("print", _("Watch list to print"))),
        ]
        label = _("What to watch for, and how")
        return [{"kind": "fold", "label": label, "fields": fields, "open": not self.seen}]
