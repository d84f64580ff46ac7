"""What a factor is: one consideration, its measure, its curve and its hard no."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import param

from model.decision.desirability import Curve
from model.ground import Ground
from model.language import _, figure, marked

GROUPS = {
    "place": marked("Place"),
    "room": marked("Room"),
    "ground": marked("Ground"),
    "people": marked("People"),
}


class Settings(param.Parameterized):
    """The choices of one factor: its desirability curve and, in subclasses, its own figures."""

    curve: Any = param.ClassSelector(class_=Curve, doc="Desirability of the measure [0 to 1].")

    def figures(self) -> dict[str, Any]:
        """The factor's own figures by name, without the curve."""
        return {
            name: value
            for name, value in self.param.values().items()
            if name not in ("name", "curve")
        }


@dataclass(frozen=True)
class RuleOut:
    """A hard no: where it holds, (option or 1, place), and why in words."""

    reason: str
    where: np.ndarray


@dataclass(frozen=True)
class Factor:
    """One consideration of a planting decision.

    `measure(ground, traits, **figures)` returns an array (option or 1, place) in `unit`;
    `rules_out` returns the hard noes, `explain(ground, traits, option, place, **figures)` a
    sentence with figures and units. `needs` names the fields of the ground that it reads: where
    one of them is absent the factor is switched off, in words. `usual_weight` is what it weighs to
    begin with, against 1 for an ordinary factor.
    """

    name: str
    label: str
    question: str
    group: str
    quantity: str
    unit: str
    decimals: int
    needs: tuple[str, ...]
    settings: type[Settings]
    measure: Callable[..., np.ndarray]
    explain: Callable[..., str]
    sources: tuple[str, ...]
    rules_out: Callable[..., Sequence[RuleOut]] = lambda *_, **__: ()
    usual_weight: float = 1.0

    def shown(self, value: float) -> str:
        """The value as people read it, with its unit."""
        if np.isinf(value):
            return _("out of reach")
        return f"{figure(value, f'.{self.decimals}f')} {_(self.unit)}"

    def missing(self, ground: Ground) -> str:
        """Why this factor cannot be judged on this ground; empty when it can."""
        return " ".join(ground.absent[name] for name in self.needs if name in ground.absent)
