"""The form for a cultivar or rootstock of one's own, and the list of those one has."""

from typing import Any

from dashboard.pages import survey_form as form
from dashboard.pages.survey_form import Field
from dashboard.pages.trees_rows import fruit
from dashboard.pages.trees_work import TreesWork
from model.language import _
from model.trees import CatalogueFaults
from model.trees.own_rows import (
    ASKED,
    NEEDED,
    SUGGESTED,
    USES,
    OwnRows,
    expected_of,
    file_text,
    on_one_line,
    own_faults,
    with_own,
    without_own,
)
from model.trees.vocabulary import VOCABULARY, Trait

STATUSES = (
    ("verified", "read in the source named, or seen by myself"),
    ("common", "common practice, no source of its own"),
    ("memory", "from memory of the source named"),
)
KINDS = (("cultivars", "A cultivar"), ("rootstocks", "A rootstock"))


class OwnTrees:
    """What is being filled in, kept in the session until it is saved."""

    def __init__(self, work: TreesWork) -> None:
        self.work = work
        self.kept = work.look.own
        self.kept.setdefault("table", "cultivars")
        self.kept.setdefault("values", {})

    @property
    def table(self) -> str:
        """Cultivars or rootstocks."""
        return str(self.kept["table"])

    @property
    def rows(self) -> OwnRows:
        """What has been filled in."""
        values = dict(self.kept["values"])
        name = on_one_line(values.get("name", ""))
        species = values.get("species", "")
        key = (species, name) if self.table == "cultivars" else (name, "")
        traits = {trait: values.get(trait, "") for trait in ASKED[self.table]}
        status = values.get("status", "")
        return OwnRows(self.table, key, traits, values.get("source", ""), status)

    def told(self, name: str, value: Any) -> bool:
        """Take what was filled in or pressed; whether the page must be drawn again."""
        if name == "table" and value in ASKED:
            self.kept.update(table=value, values={}, tried=False)
        elif name == "own" and value == "save":
            self._save()
        elif name == "forget" and isinstance(value, str):
            self._forget(value)
        elif name in {*ASKED[self.table], "name", "species", "source", "status"}:
            self.kept["values"] = {**self.kept["values"], name: str(value)}
        else:
            return False
        return True

    def fields(self) -> list[Field]:
        """The form from top to bottom."""
        faults = own_faults(self.rows, self.work.study.catalogue) if self.kept.get("tried") else {}
        pairs = [
            {"id": table, "label": _(label), "pressed": str(table == self.table).lower()}
            for table, label in KINDS
        ]
        about = _(
            "What you add here stands in your own copy of this land's files, marked as your own. "
            "What you leave blank is taken from the species, or counts as not known."
        )
        fields = [form.heading(_("Add your own")), form.note(about), form.buttons("table", *pairs)]
        fields += [self._field(name, faults.get(name, "")) for name in self._names()]
        if faults:
            said = _("{count} to mend before it can be added.").format(count=len(faults))
            fields.append(form.note(said, "bad"))
        fields.append(form.buttons("own", form.main_button("save", _("Add to the catalogue"))))
        return [*fields, *self._mine()]

    def _names(self) -> tuple[str, ...]:
        first = ("species", "name") if self.table == "cultivars" else ("name",)
        return (*first, *ASKED[self.table], "source", "status")

    def _field(self, name: str, fault: str) -> Field:
        value = self.kept["values"].get(name, "")
        found: Field = {"name": name, "value": value, "fault": fault, "required": True}
        if name == "name":
            return {**found, "kind": "text", "label": _("Name")}
        if name == "source":
            hint = _("a book and page, a nursery's label, or your own observation and when")
            return {**found, "kind": "text", "label": _("Where you have it from"), "help": hint}
        if name == "status":
            pairs = [["", "\N{EN DASH}"], *([word, _(label)] for word, label in STATUSES)]
            return {**found, "kind": "choice", "label": _("How you know it"), "choices": pairs}
        if name == "species":
            listed = self.work.study.catalogue.species()
            pairs = [["", "\N{EN DASH}"], *([one, fruit(one)] for one in listed)]
            return {**found, "kind": "choice", "label": _("Fruit"), "choices": pairs}
        found["required"] = name in NEEDED[self.table]
        return found | self._trait(VOCABULARY[self.table][name])

    def _trait(self, trait: Trait) -> Field:
        unit = f" [{trait.unit}]" if trait.unit else ""
        words = _(trait.label)
        label = f"{words[:1].upper()}{words[1:]}{unit}"
        choices = USES if trait.name == "use" else trait.choices
        if choices:
            pairs = [["", "\N{EN DASH}"], *([one, _(one)] for one in choices)]
            return {"kind": "choice", "label": label, "choices": pairs}
        usual = SUGGESTED.get(trait.name)
        parts = [expected_of(trait)] if trait.numeric else []
        if usual:
            parts.append(_("where not known, {usual} is a middling one").format(usual=usual))
        if trait.unit == "day of year":
            parts.append(_("1 September is day 244"))
        if trait.name == "serves":
            names = ", ".join(self.work.study.catalogue.species())
            parts.append(_("split by semicolons, of: {names}").format(names=names))
        kind = "number" if trait.numeric else "text"
        return {"kind": kind, "label": label, "help": "; ".join(parts)}

    def _mine(self) -> list[Field]:
        mine = self.work.own
        if not mine:
            return []
        items = []
        for table, key in mine:
            name = key[1] if table == "cultivars" else key[0]
            label = f"{fruit(key[0])}, {name}" if table == "cultivars" else name
            said = _("Remove {tree}").format(tree=label)
            items.append({"id": "|".join((table, *key)), "label": said})
        return [form.subheading(_("Your own so far")), form.buttons("forget", *items)]

    def _save(self) -> None:
        self.kept["tried"] = True
        own, session = self.rows, self.work.session
        if own_faults(own, self.work.study.catalogue):
            return
        said = _("Added to your catalogue: {name}. It stands in the table now.")
        # The page is built anew while the land is opened: what it is to show is set before.
        asked, filled = self.work.look.asked, dict(self.kept)
        self.work.look.asked = {"text": own.name}
        self.kept.update(values={}, tried=False)
        if self._rewritten(own.table, with_own(file_text(session.folder, own.table), own)):
            session.said = said.format(name=own.name)
        else:
            self.work.look.asked = asked
            self.kept.update(filled)

    def _forget(self, ident: str) -> None:
        found = [one for one in self.work.own if "|".join((one[0], *one[1])) == ident]
        if not found:
            return
        table, key = found[0]
        own, session = key[1] if table == "cultivars" else key[0], self.work.session
        used = [o for o in self.work.study.options if own in (o.cultivar, o.rootstock)]
        if used:
            said = _("{tree} is on the short list: remove it there first.")
            session.said = said.format(tree=used[0].label)
        elif self._rewritten(table, without_own(file_text(session.folder, table), table, key)):
            session.said = _("Removed from your catalogue: {name}.").format(name=own)

    def _rewritten(self, table: str, text: str) -> bool:
        """Write a catalogue file and open the land anew; on faults all stays as it was."""
        session = self.work.session
        before = file_text(session.folder, table)
        if not session.keep(f"{table}.csv", text):
            return False
        try:
            session.reopen()
        except (CatalogueFaults, ValueError) as error:
            session.keep(f"{table}.csv", before)
            session.said = str(error)
            return False
        session.settled()
        return True
