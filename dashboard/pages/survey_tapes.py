"""Taped offsets pasted in, their positions as a table, and put on the plan."""

from typing import Any

from dashboard.pages import survey_form as form
from dashboard.pages.survey_form import Field
from dashboard.pages.survey_work import Work
from model.language import _, marked
from model.survey.editing import FEWEST, MARKS, PEG, Sketch
from model.survey.measuring import Place
from model.survey.taping import METHODS, Taped, taped_positions

WORDS = {
    "tapes": marked("Two tapes from two known points"),
    "bearing": marked("Bearing and distance from a known point"),
    "base line": marked("Offsets from a base line"),
}
EXAMPLES = {
    "tapes": "Plum, {one}, 4.20, {other}, 5.10, left",
    "bearing": "Plum, {one}, 45, 12.5",
    "base line": "Plum, {one}, {other}, 10.0, 2.5, right",
}
ORIGIN = "origin"


class TapesPanel:
    """A list of tapes, where they lead, and what becomes of it."""

    path = "tapes"
    label = "Tapes"
    key = "tapes"

    def __init__(self, work: Work) -> None:
        self.work = work
        self.method, self.text, self.kind = "tapes", "", "building"

    def fields(self) -> list[Field]:
        """The form."""
        known = known_points(self.work.sketch)
        named = list(known)[: list(known).index(ORIGIN) + 1]
        some = [*named, "A", "B"][:2]
        columns = ", ".join(_(column.name) for column in METHODS[self.method])
        example = EXAMPLES[self.method].format(one=some[0], other=some[1])
        methods = [(one, _(WORDS[one])) for one in METHODS]
        shown = [
            form.heading(_("Taped offsets")),
            form.note(_("Known points: {names}").format(names=", ".join(named)), "help"),
            form.note(_("Corners of named features count too: House 1, House 2."), "help"),
            form.choice("method", _("Measured by"), methods, self.method),
            form.area(
                "text", _("One point a line"), self.text, rows=6, example=example,
                help=_("{columns}; left or right as one looks from the first known point").format(
                    columns=columns
                ) if self.method != "bearing" else columns,
            ),
            form.buttons("act", ("work", _("Work out"))),
        ]  # fmt: skip
        return shown + (self._result() if self.text.strip() else [])

    def _result(self) -> list[Field]:
        taped, faults = taped_positions(self.text, self.method, known_points(self.work.sketch))
        shown = [
            form.note(
                _("row {row}: found {found}, expected {expected}, mend by {mend}").format(
                    row=one.row, found=one.found, expected=one.expected, mend=one.mend
                ),
                "bad",
            )
            for one in faults
        ]
        if taped:
            rows = [
                [one.name, f"{one.place[0]:.2f}", f"{one.place[1]:.2f}", one.note] for one in taped
            ]
            heads = [_("Point"), _("East [m]"), _("North [m]"), _("Note")]
            shown.append(form.table(_("Positions"), heads, rows))
            shown += self._adding(taped)
        return shown

    def _adding(self, taped: tuple[Taped, ...]) -> list[Field]:
        kinds = [(one.name, one.label) for one in MARKS.values() if one.geometry[0] != "Point"]
        enough = len(taped) >= FEWEST[MARKS[self.kind].geometry[0]]
        return [
            form.buttons("act", form.main_button("pegs", _("Add as pegs"))),
            form.choice("kind", _("Or as the corners of one"), kinds, self.kind),
            form.buttons(
                "act", {"id": "corners", "label": _("Add as one feature"), "disabled": not enough}
            ),
        ]

    def told(self, name: str, value: Any) -> None:
        """Take what was filled in or pressed."""
        if name == "method" and value in METHODS:
            self.method = str(value)
        elif name == "text":
            self.text = str(value)[:50_000]
        elif name == "kind" and value in MARKS:
            self.kind = str(value)
        elif name == "act" and value in ("pegs", "corners"):
            self._add(str(value))
        self.work.told()

    def _add(self, act: str) -> None:
        work = self.work
        taped, _faults = taped_positions(self.text, self.method, known_points(work.sketch))
        sketch = work.sketch
        if not taped:
            return
        if act == "corners":
            sketch = sketch.added(self.kind, tuple(one.place for one in taped))
            work.panel = "feature"
        else:
            for one in taped:
                sketch = sketch.added(PEG.name, (one.place,), one.name)
        self.text = ""
        work.step(sketch, sketch.free - 1)


def known_points(sketch: Sketch) -> dict[str, Place]:
    """Points that a tape may be held to: the origin, the hub, pegs, named points and corners.

    Corners of a feature are numbered in the order drawn, as in 'House 1'.
    """
    known: dict[str, Place] = {}
    for mark in sketch.marks:
        if mark.shape == "Point" and mark.points and (mark.name or mark.kind == "hub"):
            known.setdefault(mark.name or "hub", mark.points[0])
    known.setdefault(ORIGIN, (0.0, 0.0))
    for mark in sketch.marks:
        if (
            mark.shape != "Point"
            and (mark.name or mark.kind == "boundary")
            and len(mark.points) <= 40
        ):
            for number, point in enumerate(mark.points, start=1):
                known.setdefault(f"{mark.label} {number}", point)
    return known
