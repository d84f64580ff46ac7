"""Metres or feet and inches: lengths in the sentences that people read, changed as they are shown.

The model thinks in metres. A page passes every sentence it shows through `spoken`.
"""

import re

INCHES = 39.37007874  # in a metre
NUMBER = r"(?<![\w.,])([-\N{MINUS SIGN}]?\d+(?:\.\d+)?)"
UNIT = r" (mm|cm|m|km)\b(?![/²³\d])"
LENGTH = re.compile(NUMBER + UNIT)
RANGE = re.compile(f"{NUMBER} to {NUMBER}{UNIT}")  # of which only the second has its unit
METRES = {"mm": 0.001, "cm": 0.01, "m": 1.0, "km": 1000.0}
MILE = 1609.344


def spoken(text: str, feet: bool) -> str:
    """A text with its lengths in feet and inches, or as it is.

    >>> spoken("a crown 4.2 m across, 85 cm of soil, 20 m/s", feet=True)
    'a crown 13 ft 9 in across, 2 ft 9 in of soil, 20 m/s'
    >>> spoken("3.2 to 4.6 m high", feet=True)
    '10 ft 6 in to 15 ft 1 in high'
    >>> spoken("a crown 4.2 m across", feet=False)
    'a crown 4.2 m across'
    """
    return LENGTH.sub(_in_feet, RANGE.sub(r"\1 \3 to \2 \3", text)) if feet else text


def length(metres: float, feet: bool, decimals: int = 1) -> str:
    """A length with its unit.

    >>> length(4.25, feet=False), length(4.25, feet=True), length(30.0, feet=True)
    ('4.2 m', '13 ft 9 in', '98 ft')
    """
    return spoken(f"{metres:.{decimals}f} m", feet)


def _in_feet(found: re.Match[str]) -> str:
    number = found[1].replace("\N{MINUS SIGN}", "-")
    metres = float(number) * METRES[found[2]]
    sign = "\N{MINUS SIGN}" if metres < 0 else ""
    inches = abs(metres) * INCHES
    if found[2] == "km":
        return f"{sign}{abs(metres) / MILE:.1f} miles"
    if found[2] == "mm":
        return f"{sign}{inches:.1f} in"
    if inches >= 40 * 12 or ("." not in number and found[2] == "m" and inches >= 20 * 12):
        return f"{sign}{inches / 12:.0f} ft"
    feet, rest = divmod(round(inches), 12)
    parts = [f"{feet} ft"] * bool(feet) + [f"{rest} in"] * bool(rest or not feet)
    return sign + " ".join(parts)
