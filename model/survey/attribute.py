"""One field of a survey file: its name, unit and limits, and the check of a value against them."""

import math
import re
from dataclasses import dataclass
from enum import Enum
from typing import NamedTuple

import numpy as np

from model.survey.faults import listed, nearest_name, shown

# One way only to match each digit: a pattern that may try several takes hours over a long cell.
PLAIN_NUMBER = re.compile(r"[+-]?(\d+(\.\d*)?|\.\d+)([eE][+-]?\d+)?")
DECIMAL_COMMA = re.compile(r"[+-]?\d+,\d+")
LONGEST_TEXT = 2000  # letters of a name or note

Value = float | str | bool


class Required(Enum):
    """Stands where a default would, for a field that must be filled in."""

    REQUIRED = "required"


REQUIRED = Required.REQUIRED


@dataclass(frozen=True)
class Attribute:
    """A field of a file; a number when it has a lowest value, else text."""

    name: str
    unit: str
    default: Value | Required
    low: float | None = None
    high: float | None = None
    choices: tuple[str, ...] = ()
    meaning: str = ""
    whole: bool = False

    @property
    def is_number(self) -> bool:
        """Whether the field holds a number."""
        return self.low is not None

    @property
    def expected(self) -> str:
        """What may stand in the field, in words."""
        if self.choices:
            return listed(self.choices)
        if self.is_number:
            noun = "a whole number" if self.whole else "a number"
            unit = f" ({self.unit})" if self.unit else ""
            return f"{noun} from {self.low:g} to {self.high:g}{unit}"
        return f"text: {self.meaning}" if self.meaning else "text"


class Wrong(NamedTuple):
    """Why a value cannot stand: what was found, what was expected, how to mend it."""

    found: str
    expected: str
    mend: str


def is_blank(raw: object) -> bool:
    """Whether nothing was filled in (a table made by a GIS holds NaN for an empty number)."""
    return raw is None or (isinstance(raw, str) and not raw.strip())


def checked_value(attribute: Attribute, raw: object) -> Value | Wrong:
    """The value of a field, its default when blank, or what is wrong with it."""
    if is_blank(raw):
        if isinstance(attribute.default, Required):
            return Wrong("nothing", attribute.expected, f"filling in {attribute.name}")
        return attribute.default
    return _number(attribute, raw) if attribute.is_number else _text(attribute, raw)


def _number(attribute: Attribute, raw: object) -> float | Wrong:
    number = _parsed(raw)
    if number is None:
        comma = isinstance(raw, str) and DECIMAL_COMMA.fullmatch(raw.strip())
        mend = "writing a decimal point" if comma else "writing digits only, without the unit"
        return Wrong(shown(raw), attribute.expected, mend)
    low, high = attribute.low, attribute.high
    if low is None or high is None or not low <= number <= high:
        return Wrong(shown(raw), attribute.expected, f"checking the unit is {attribute.unit or 1}")
    if attribute.whole and number != int(number):
        return Wrong(shown(raw), attribute.expected, "leaving out the decimals")
    return number


def _parsed(raw: object) -> float | None:
    """The number written, None when it is not a plain finite one."""
    if isinstance(raw, str):
        raw = raw.strip()
        number = float(raw) if PLAIN_NUMBER.fullmatch(raw) else math.nan
    elif isinstance(raw, (int, float, np.integer, np.floating)) and not isinstance(raw, bool):
        try:
            number = float(raw)
        except OverflowError:
            number = math.nan
    else:
        return None
    return number if math.isfinite(number) else None


def _text(attribute: Attribute, raw: object) -> str | Wrong:
    if not isinstance(raw, str):
        return Wrong(shown(raw), attribute.expected, "writing text")
    text = raw.strip()
    if len(text) > LONGEST_TEXT:
        found = f"a text of {len(text):,} letters"
        return Wrong(found, f"at most {LONGEST_TEXT:,}", "shortening it")
    if not text.isprintable():
        return Wrong(shown(raw), "text on one line", "removing line breaks and odd characters")
    if attribute.choices and text not in attribute.choices:
        return Wrong(shown(raw), attribute.expected, nearest_name(text, attribute.choices))
    return text
