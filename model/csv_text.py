"""Words in CSV files that a spreadsheet takes for words, never for formulas.

Every CSV that is written goes through `disarmed`, every CSV that is read through `armed`, so that
a name comes back as it was typed whatever it begins with.
"""

import re

import pandas as pd

# Signs at which a spreadsheet begins to reckon, the wide ones of East Asian keyboards as well. An
# apostrophe before them is not one, but takes another, so that no two words are written alike.
FORMULA = re.compile("'*[=+\\-@\t\r\n\uff1d\uff0b\uff0d\uff20]")
NUMBER = re.compile(r"[+-]?(\d+(\.\d*)?|\.\d+)([eE][+-]?\d+)?")


def disarmed(cell: str) -> str:
    """A cell; words that a spreadsheet would reckon with get an apostrophe before them.

    >>> disarmed("=1+1"), disarmed("-2.5"), disarmed("Home field")
    ("'=1+1", '-2.5', 'Home field')
    """
    reckons = FORMULA.match(cell) is not None and not NUMBER.fullmatch(cell)
    return f"'{cell}" if reckons else cell


def armed(cell: str) -> str:
    """A cell as it was before it was disarmed.

    >>> armed("'=1+1"), armed("'tis the gate")
    ('=1+1', "'tis the gate")
    """
    return cell[1:] if cell.startswith("'") and FORMULA.match(cell) else cell


def csv_text(table: pd.DataFrame, figures: str | None = "%.6g") -> str:
    """A table's CSV text, the same bytes for the same table; what is not known is blank."""
    safe = table.map(lambda cell: disarmed(cell) if isinstance(cell, str) else cell)
    return safe.to_csv(index=False, float_format=figures, lineterminator="\n")
