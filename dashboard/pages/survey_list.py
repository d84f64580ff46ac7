"""What stands on the plan, and every fault, each leading to its feature."""

from typing import Any

from dashboard.pages import survey_form as form
from dashboard.pages.survey_feature import said
from dashboard.pages.survey_form import Field
from dashboard.pages.survey_work import Work
from dashboard.plots import survey_plan
from model.language import _
from model.survey.editing import MARKS, Mark


class ListPanel:
    """Faults first, then every feature by kind."""

    path = "list"
    label = "List"
    key = "list"

    def __init__(self, work: Work) -> None:
        self.work = work

    def fields(self) -> list[Field]:
        """The list."""
        work, shown = self.work, [form.heading(_("On the plan"))]
        shown += [form.note(said(fault), "bad") for fault in work.site_faults()]
        faulty = [mark for mark in work.sketch.marks if mark.id in work.faults]
        if faulty:
            items = [self._item(mark, with_fault=True) for mark in faulty]
            shown += [form.subheading(_("To be mended")), _list("fault", _("To be mended"), items)]
        for kind in MARKS.values():
            marks = work.sketch.of_kind(kind.name)
            if marks:
                label = f"{_(kind.label)} ({len(marks)})"
                shown += [form.subheading(label)]
                shown.append(_list("pick", label, [self._item(mark) for mark in marks]))
        if not work.sketch.marks:
            shown.append(form.note(_("Nothing is drawn yet.")))
        missing = work.checked.site.absent.values()
        if missing:
            shown.append(form.subheading(_("Not known here")))
            shown += [form.note(_(sentence), "help") for sentence in missing]
        return shown

    def _item(self, mark: Mark, with_fault: bool = False) -> dict[str, Any]:
        faults = self.work.faults.get(mark.id, ())
        note = "; ".join(f"{one.field.replace('_', ' ')}: {said(one)}" for one in faults)
        return {
            "id": f"{'fault-' if with_fault else ''}{mark.id}",
            "label": mark.label,
            "sign": survey_plan.sign(mark.kind),
            "tone": survey_plan.tone(mark.kind),
            "current": mark.id == self.work.chosen,
            "note": note if with_fault else (_("to be mended") if faults else ""),
            "fault": bool(faults),
        }

    def told(self, name: str, value: Any) -> None:
        """Choose what was picked."""
        number = str(value).removeprefix("fault-")
        if name in ("pick", "fault") and number.isdecimal():
            self.work.chosen, self.work.panel = int(number), "feature"
            self.work.told()


def _list(name: str, label: str, items: list[dict[str, Any]]) -> Field:
    return {"kind": "list", "name": name, "label": label, "items": items}
