"""What is settled among the weights: one is kept, or weighs at least as much as another."""

from collections.abc import Callable
from typing import Any

import panel as pn
import panel_material_ui as pmui

from dashboard.session import Session
from model.decision.weight_rules import WeightRules, clash
from model.language import _

KEPT, ORDERED = "kept", "ordered"
MEMORY = "weigh rules"
WIDE = {"size": "small", "margin": (2, 4), "sizing_mode": "stretch_width"}


class SettledRules:
    """Rules among weights, added and removed one by one; kept by factor names in the session."""

    def __init__(self, session: Session, changed: Callable[[], None]) -> None:
        self.session, self.study, self._changed = session, session.study, changed
        names = {_(factor.label): factor.name for factor in self.study.factors}
        kinds = {_("keeps its weight"): KEPT, _("weighs at least as much as"): ORDERED}
        first, second = list(names.values())[:2]
        self.factor = pmui.Select(label=_("Settled: factor"), options=names, value=first, **WIDE)
        self.kind = pmui.Select(label=_("What is settled"), options=kinds, value=KEPT, **WIDE)
        self.other = pmui.Select(
            label=_("Than factor"), options=names, value=second, visible=False, **WIDE
        )
        self.add = pmui.Button(
            label=_("Add"), size="small", variant="outlined", margin=(6, 4), align="start"
        )
        self.list = pn.Column(sizing_mode="stretch_width", margin=0)
        self.kind.param.watch(
            lambda event: setattr(self.other, "visible", event.new == ORDERED), "value"
        )
        self.add.on_click(lambda _event: self._add())
        self.view = pn.Column(
            pn.Row(self.factor, self.kind, sizing_mode="stretch_width", margin=0),
            pn.Row(self.other, self.add, sizing_mode="stretch_width", margin=0),
            self.list,
            sizing_mode="stretch_width",
            margin=0,
        )
        self._show()

    @property
    def settled(self) -> tuple[tuple[str, ...], ...]:
        """The rules: kept, a factor and its share; or ordered, a factor and another."""
        names = {factor.name for factor in self.study.factors}
        kept = self.session.memory.get(MEMORY, ())
        return tuple(rule for rule in kept if {rule[1], *rule[2:][: rule[0] == ORDERED]} <= names)

    def rules(self) -> WeightRules:
        """The rules by factor numbers, as the model takes them."""
        number = {factor.name: n for n, factor in enumerate(self.study.factors)}
        fixed = {number[rule[1]]: float(rule[2]) for rule in self.settled if rule[0] == KEPT}
        order = [(number[one[1]], number[one[2]]) for one in self.settled if one[0] == ORDERED]
        return WeightRules(fixed=fixed, order=tuple(order))

    def words(self, rule: tuple[str, ...]) -> str:
        """A rule in a sentence."""
        label = {factor.name: _(factor.label) for factor in self.study.factors}
        if rule[0] == KEPT:
            share = f"{100 * float(rule[2]):.0f}"
            return _("{name} keeps its {share} %").format(name=label[rule[1]], share=share)
        return _("{name} weighs at least as much as {other}").format(
            name=label[rule[1]], other=label[rule[2]].lower()
        )

    def _add(self) -> None:
        name = self.factor.value
        share = float(self.study.weights[self.study.members(name)][0])
        rule = (KEPT, name, f"{share:.6f}")
        if self.kind.value == ORDERED:
            rule = (ORDERED, name, self.other.value)
        if rule[1] == rule[2]:
            return
        before = self.settled
        # A factor is kept at one share only: the present one.
        others = [one for one in before if one != rule and not one[:2] == rule[:2] == (KEPT, name)]
        self.session.memory[MEMORY] = (*others, rule)
        labels = [factor.label.lower() for factor in self.study.factors]
        at_odds = clash(len(labels), self.rules(), labels)
        if at_odds:
            self.session.memory[MEMORY] = before
            self.session.said = _("That cannot hold together with the rest: {rules}.").format(
                rules="; ".join(at_odds)
            )
        self._show()
        self._changed()

    def _remove(self, rule: tuple[str, ...]) -> None:
        self.session.memory[MEMORY] = tuple(one for one in self.settled if one != rule)
        self._show()
        self._changed()

    def _show(self) -> None:
        self.list.objects = [self._button(rule) for rule in self.settled]

    def _button(self, rule: tuple[str, ...]) -> Any:
        words = _("Remove: {rule}").format(rule=self.words(rule))
        button = pmui.Button(label=words, variant="text", margin=(0, 4), size="small")
        button.on_click(lambda _event: self._remove(rule))
        return button
