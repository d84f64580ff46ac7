"""A ballot: one group's weights, under a name of its own choosing."""

import math
import unicodedata
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime

from model.decision.power_mean import HIGHEST_EXPONENT, LOWEST_EXPONENT
from model.factors import FACTORS
from model.survey.faults import nearest_name, shown

LONGEST_NAME = 60  # characters
LONGEST_LABEL = 200  # characters of an option's label
MOST_OPTIONS = 200
MOST_WEIGHT = 1e6
JOINERS = "\u200c\u200d"  # invisible, but some scripts are misspelt without them
NAMES = tuple(factor.name for factor in FACTORS)


class BallotFaults(ValueError):  # noqa: N818 - named for what it carries: all the faults
    """Every fault of a ballot at once, a sentence each."""

    def __init__(self, faults: tuple[str, ...]) -> None:
        self.faults = faults
        super().__init__(" ".join(faults))


@dataclass(frozen=True)
class Ballot:
    """What a group wants: weights by factor, a trade-off, the options it wants considered.

    A factor of weight 0 counts for nothing; one that is not named was left out, and nothing is
    concluded from that. No options means all. `at` is the ISO time of its sending, empty until
    then. Raises BallotFaults.
    """

    group: str
    weights: Mapping[str, float]
    trade_off: float
    options: tuple[str, ...] = ()
    round: int = 1
    at: str = ""

    def __post_init__(self) -> None:
        if isinstance(self.group, str):
            object.__setattr__(self, "group", plain_name(self.group))
        faults = tuple(_faults(self))
        if faults:
            raise BallotFaults(faults)
        weights = {name: float(share) for name, share in sorted(self.weights.items())}
        object.__setattr__(self, "weights", weights)
        object.__setattr__(self, "trade_off", float(self.trade_off))
        object.__setattr__(self, "options", tuple(self.options))


def plain_name(name: str) -> str:
    r"""A name in one spelling: composed letters, single spaces.

    >>> plain_name("  Cafe\u0301  at nine ")
    'Café at nine'
    """
    return " ".join(unicodedata.normalize("NFC", name).split())


def _faults(ballot: Ballot) -> Iterator[str]:
    yield from _name_faults(ballot.group)
    yield from _weight_faults(ballot.weights)
    low, high = LOWEST_EXPONENT, HIGHEST_EXPONENT
    if not (_is_number(ballot.trade_off) and low <= ballot.trade_off <= high):
        yield f"The trade-off: found {shown(ballot.trade_off)}, expected {low:g} to {high:g}."
    yield from _option_faults(ballot.options)
    if isinstance(ballot.round, bool) or not isinstance(ballot.round, int) or ballot.round < 1:
        yield f"The round: found {shown(ballot.round)}, expected a whole number from 1."
    if not _is_time(ballot.at):
        yield f"The time: found {shown(ballot.at)}, expected one such as 2026-02-01T10:30:00+00:00."


def _name_faults(name: object) -> Iterator[str]:
    if not isinstance(name, str) or not name:
        yield "The group has no name: choose one."
        return
    if len(name) > LONGEST_NAME:
        yield f"The name has {len(name)} characters: choose one of at most {LONGEST_NAME}."
    if _hidden(name) or not name.strip(JOINERS):
        yield "The name holds characters that cannot be seen: type it again."


def _weight_faults(weights: object) -> Iterator[str]:
    if not isinstance(weights, Mapping):
        yield f"The weights: found {shown(weights)}, expected a weight by factor."
        return
    for name, weight in weights.items():
        if name not in NAMES:
            yield f"No factor is called {shown(name)}: mend by {nearest_name(str(name), NAMES)}."
        if not (_is_number(weight) and 0 <= weight <= MOST_WEIGHT):
            yield f"The weight of {name}: found {shown(weight)}, expected a number of 0 or more."
    if not any(_is_number(weight) and weight > 0 for weight in weights.values()):
        yield "No factor has any weight: give at least one some."


def _option_faults(options: object) -> Iterator[str]:
    if not isinstance(options, tuple | list):
        yield f"The options: found {shown(options)}, expected their labels."
        return
    if len(options) > MOST_OPTIONS:
        yield f"The ballot names {len(options)} options: name at most {MOST_OPTIONS}."
    for label in options:
        fits = isinstance(label, str) and 0 < len(label) <= LONGEST_LABEL
        if not fits or _hidden(label):
            yield f"An option's label: found {shown(label)}, expected a short text."


def _hidden(text: str) -> bool:
    """Whether a text holds characters that nobody can see, or that turn its direction."""
    return any(unicodedata.category(one)[0] == "C" and one not in JOINERS for one in text)


def _is_number(value: object) -> bool:
    if isinstance(value, int) and not isinstance(value, bool):
        return abs(value) < 1e300  # a longer one has no float
    return isinstance(value, float) and math.isfinite(value)


def _is_time(value: object) -> bool:
    try:
        return value == "" or bool(datetime.fromisoformat(str(value)))
    except ValueError:
        return False
