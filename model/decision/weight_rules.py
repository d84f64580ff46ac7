"""What is settled among weights: shares fixed or bounded, and which factor outweighs which."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import linprog

Floats = NDArray[np.float64]

_INFEASIBLE = 2  # status of scipy.optimize.linprog


@dataclass(frozen=True)
class WeightRules:
    """Rules among the weights of factors numbered from 0; shares are of all weight [0 to 1].

    `order` holds pairs (i, j): factor i weighs at least as much as factor j.
    """

    fixed: Mapping[int, float] = field(default_factory=dict)
    low: Mapping[int, float] = field(default_factory=dict)
    high: Mapping[int, float] = field(default_factory=dict)
    order: tuple[tuple[int, int], ...] = ()


class Rule(NamedTuple):
    """One rule in words, and as rows @ weights <= bounds; rows (row, factor), bounds (row,)."""

    words: str
    rows: Floats
    bounds: Floats


def stated(n: int, rules: WeightRules, names: Sequence[str] | None = None) -> tuple[Rule, ...]:
    """Each rule among n factors by itself; ValueError where a share or a factor cannot be."""
    called = names or [f"factor {number + 1}" for number in range(n)]
    faults = list(_faults(n, rules, called))
    if faults:
        raise ValueError("; ".join(faults))
    unit = np.eye(n)
    both = np.array([1, -1])
    found = [
        Rule(f"{called[i]} fixed at {_share(x)}", np.outer(both, unit[i]), x * both)
        for i, x in rules.fixed.items()
    ]
    found += [
        Rule(f"{called[i]} at least {_share(x)}", -unit[[i]], np.array([-x]))
        for i, x in rules.low.items()
    ]
    found += [
        Rule(f"{called[i]} at most {_share(x)}", unit[[i]], np.array([x]))
        for i, x in rules.high.items()
    ]
    found += [
        Rule(f"{called[i]} no less than {called[j]}", unit[[j]] - unit[[i]], np.zeros(1))
        for i, j in rules.order
    ]
    return tuple(found)


def clash(n: int, rules: WeightRules, names: Sequence[str] | None = None) -> tuple[str, ...]:
    """Rules, in words, that cannot hold together: none of them can be spared; empty if all hold.

    The deletion filter of Chinneck and Dravnieks (1991), ORSA J. on Computing 3(2), 157-168.
    """
    kept = list(stated(n, rules, names))
    if _holds(n, kept):
        return ()
    for rule in tuple(kept):
        rest = [other for other in kept if other is not rule]
        if not _holds(n, rest):
            kept = rest
    return tuple(rule.words for rule in kept)


def _holds(n: int, rules: Sequence[Rule]) -> bool:
    """Whether some weights of 0 or more, together 1, keep these rules."""
    rows = np.vstack([np.zeros((1, n)), *(rule.rows for rule in rules)])
    bounds = np.concatenate([[0.0], *(rule.bounds for rule in rules)])
    found = linprog(np.zeros(n), rows, bounds, np.ones((1, n)), [1.0], bounds=(0, 1))
    return found.status != _INFEASIBLE


def _faults(n: int, rules: WeightRules, names: Sequence[str]) -> Iterator[str]:
    """What cannot be meant in any single rule."""
    said = (("fixed", rules.fixed), ("low", rules.low), ("high", rules.high))
    used = [(kind, i) for kind, shares in said for i in shares]
    used += [("order", i) for pair in rules.order for i in pair]
    for kind, i in used:
        if not 0 <= i < n:
            yield (
                f"weights, {kind}: found factor number {i}, expected 0 to {n - 1}, mend by "
                "naming a factor that there is"
            )
    for kind, shares in said:
        for i, x in shares.items():
            if 0 <= i < n and not 0 <= x <= 1:
                yield (
                    f"weights, {kind}, {names[i]}: found a share of {x}, expected 0 to 1, mend "
                    "by giving a share of all weight"
                )


def _share(x: float) -> str:
    return f"{100 * x:.4g} %"
