"""Tables as CSV text that a spreadsheet takes for words and numbers, never for formulas."""

import pandas as pd

FORMULA = ("=", "+", "-", "@", "\t", "\r")  # signs at which a spreadsheet begins to reckon


def csv_text(table: pd.DataFrame) -> str:
    """A table's CSV text, the same bytes for the same table; what is not known is blank."""
    safe = table.map(_disarmed)
    return safe.to_csv(index=False, float_format="%.6g", lineterminator="\n")


def _disarmed(cell: object) -> object:
    """A cell; words that a spreadsheet would reckon with get an apostrophe before them."""
    if isinstance(cell, str) and cell.startswith(FORMULA) and not _is_number(cell):
        return f"'{cell}"
    return cell


def _is_number(cell: str) -> bool:
    try:
        float(cell)
    except ValueError:
        return False
    return True
