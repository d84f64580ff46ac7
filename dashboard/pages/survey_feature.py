"""The form of the chosen feature, made from its kind."""

import re
from typing import Any

from dashboard.pages import survey_form as form
from dashboard.pages.survey_form import Field
from dashboard.pages.survey_work import Work
from model.language import _
from model.survey.attribute import PLAIN_NUMBER, Attribute
from model.survey.editing import HUB, MARKS, PEG, Mark
from model.survey.faults import Fault
from model.survey.kinds import KINDS
from model.survey.measuring import Place
from model.survey.plus_minus import plus_minuses
from model.trees import Catalogue

MOST_CORNERS = 2000
FURTHEST = 1e7  # m; what lies within reach of the site is judged with the feature
BURIED = (
    "What is not on the plan may still be in the ground: ask every network operator, have services "
    "traced and dig by hand."
)
OVERHEAD = "Keep ladders, poles and machines clear; ask the operator how far."
CAUTIONS = {"buried_service": BURIED, "overhead_line": OVERHEAD}


class FeaturePanel:
    """Name, attributes and corners of the chosen feature."""

    path = "feature"
    label = "Feature"

    def __init__(self, work: Work) -> None:
        self.work = work
        self.wrong: dict[tuple[int, str], str] = {}

    @property
    def key(self) -> str:
        """Which form it is."""
        return f"feature-{self.work.chosen}"

    def fields(self) -> list[Field]:
        """The form, or what to do when nothing is chosen."""
        mark = self.work.mark
        if mark is None:
            return self._nothing()
        kind = MARKS[mark.kind]
        shown = [form.heading(_(kind.label)), form.note(_(kind.meaning), "help")]
        if mark.kind in CAUTIONS:
            shown.append(form.note(_(CAUTIONS[mark.kind]), "caution"))
        faults = self.work.faults.get(mark.id, ())
        shown += [
            form.note(said(fault), "bad") for fault in faults if not self._has_field(mark, fault)
        ]
        if mark.kind != HUB.name:
            shown.append(self._name(mark, faults))
        shown += [self._attribute(mark, one, faults) for one in kind.attributes]
        doubts = plus_minuses(kind) if mark.kind in KINDS else ()
        if doubts:
            label = _("How far the figures may be off")
            inner = [self._attribute(mark, one, faults) for one in doubts]
            shown.append({"kind": "fold", "label": label, "fields": inner})
        shown.append(self._corners(mark))
        row = [("remove", _("Delete")), ("copy", _("Copy beside")), ("close", _("Done"))]
        return [*shown, form.buttons("act", *(row if mark.kind != HUB.name else row[::2]))]

    def _nothing(self) -> list[Field]:
        count = len(self.work.sketch.marks)
        if not count:
            said_ = _("The plan is empty. Pick what to draw, or begin a new site in four steps.")
            return [
                form.heading(_(self.label)),
                form.note(said_),
                form.buttons("act", ("new", _("New site"))),
            ]
        return [
            form.heading(_(self.label)),
            form.note(_("Tap a feature on the plan to see and change it.")),
            form.note(_("To add one, pick a kind and tap where it stands.")),
            form.note(_("Drag a chosen feature, or one of its corners, to move it.")),
        ]

    def _name(self, mark: Mark, faults: tuple[Fault, ...]) -> Field:
        fault = next((said(one) for one in faults if one.field in ("name", "spot")), "")
        needed = mark.kind == PEG.name
        help_ = _("what people call it") if not needed else _("what is on the peg; each name once")
        return {
            "kind": "text", "name": "name", "label": _("Name"), "value": mark.name,
            "required": needed, "help": help_, "fault": fault,
        }  # fmt: skip

    def _attribute(self, mark: Mark, attribute: Attribute, faults: tuple[Fault, ...]) -> Field:
        fault = next((said(one) for one in faults if one.field == attribute.name), "")
        field = form.attribute_field(attribute, mark.fields.get(attribute.name), fault)
        if attribute.name == "species":
            field["suggestions"] = neighbours(self.work.session.study.catalogue)
        return field

    def _has_field(self, mark: Mark, fault: Fault) -> bool:
        kind = MARKS[mark.kind]
        doubts = plus_minuses(kind) if mark.kind in KINDS else ()
        return fault.field in ("name", "spot", *(one.name for one in (*kind.attributes, *doubts)))

    def _corners(self, mark: Mark) -> Field:
        lines = "\n".join(f"{form.plain(x)}, {form.plain(y)}" for x, y in mark.points)
        label = (
            _("Place: east, north [m]") if mark.shape == "Point" else _("Corners: east, north [m]")
        )
        help_ = _("metres from the site's origin") + (
            "" if mark.shape == "Point" else _("; one a line")
        )
        more = {"rows": min(max(len(mark.points), 1), 8), "help": help_}
        return form.area(
            "corners", label, lines, fault=self.wrong.get((mark.id, "corners"), ""), **more
        )

    def told(self, name: str, value: Any) -> None:
        """Take what was filled in or pressed."""
        work, mark = self.work, self.work.mark
        if name == "act":
            self._pressed(str(value), mark)
        elif mark is None:
            return
        elif name == "corners":
            self._typed(mark, str(value))
        elif name == "name" or MARKS[mark.kind].attribute(name) or name in _doubts(mark):
            work.step(work.sketch.changed(mark.id, name, str(value).strip()))

    def _typed(self, mark: Mark, text: str) -> None:
        self.wrong.pop((mark.id, "corners"), None)
        try:
            points = corners(text)
            fault = ""
        except ValueError as error:
            points, fault = (), str(error)
        if not fault and mark.shape == "Point" and len(points) != 1:
            fault = _("found {count} places, expected one").format(count=len(points))
        if fault:
            self.wrong[mark.id, "corners"] = fault
            self.work.told()
            return
        self.work.step(self.work.sketch.reshaped(mark.id, points))

    def _pressed(self, act: str, mark: Mark | None) -> None:
        work = self.work
        if act == "new":
            work.panel = "new"
        if mark is not None and act == "remove":
            work.step(work.sketch.removed(mark.id), 0)
        elif mark is not None and act == "copy":
            points = tuple((x + 2.0, y) for x, y in mark.points)
            name = "" if mark.kind == PEG.name else mark.name
            work.step(work.sketch.added(mark.kind, points, name, mark.fields), work.sketch.free)
        elif act == "close":
            work.chosen = 0
        work.told()


def _doubts(mark: Mark) -> tuple[str, ...]:
    kind = MARKS[mark.kind]
    return tuple(one.name for one in plus_minuses(kind)) if mark.kind in KINDS else ()


def corners(text: str) -> tuple[Place, ...]:
    """Places typed one a line as 'east, north'; ValueError names the first line that is none."""
    points = []
    for number, line in enumerate(text.splitlines(), start=1):
        cells = [cell for cell in re.split(r"[,;\s]+", line.strip()) if cell]
        if not cells:
            continue
        if len(cells) != 2 or not all(map(_is_near, cells)):
            raise ValueError(
                _("line {number}: found {found}, expected east, north such as 12.5, 30").format(
                    number=number, found=line.strip()[:40]
                )
            )
        points.append((float(cells[0]), float(cells[1])))
        if len(points) > MOST_CORNERS:
            break
    if not points or len(points) > MOST_CORNERS:
        raise ValueError(_("found {count} places").format(count=len(points)))
    return tuple(points)


def _is_near(cell: str) -> bool:
    """Whether it is a plain number of metres within reach of any survey."""
    return PLAIN_NUMBER.fullmatch(cell) is not None and abs(float(cell)) <= FURTHEST


def neighbours(catalogue: Catalogue) -> list[str]:
    """The trees that may stand on a survey, by name."""
    return [name.replace("_", " ") for name in catalogue.neighbours()]


def said(fault: Fault) -> str:
    """A fault without its file: the form shows where it is."""
    if fault.found == "nothing":
        return _("still needed")
    return _("found {found}, expected {expected}, mend by {mend}").format(
        found=fault.found, expected=fault.expected, mend=fault.mend
    )
