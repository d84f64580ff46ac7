"""What a factor reads, found out by watching it read."""

from typing import Any

from model.factors import Factor
from model.ground import Ground
from model.trees import Traits

SIZES = frozenset({"height", "spread"})


class Watched:
    """Stands in for an object and notes which of its attributes are asked for."""

    def __init__(self, watched: Any, seen: set[str]) -> None:
        self._watched, self._seen = watched, seen

    def __getattr__(self, name: str) -> Any:
        self._seen.add(name)
        return getattr(self._watched, name)


def reads(factor: Factor, ground: Ground, traits: Traits, figures: dict) -> frozenset[str]:
    """The fields of ground and traits that a factor's measure and rule-outs ask for."""
    seen: set[str] = set()
    watched: Any = (Watched(ground, seen), Watched(traits, seen))
    factor.measure(*watched, **figures)
    factor.rules_out(*watched, **figures)
    return frozenset(seen)
