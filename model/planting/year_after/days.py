"""A day as people write it in a table of what was planted or seen."""

from datetime import date

FIRST_YEAR, LAST_YEAR = 1900, 2200
EXPECTED = f"a date such as 2027-10-31, from {FIRST_YEAR} to {LAST_YEAR}"
MEND = "writing year-month-day"


def day_of(text: str) -> date | None:
    """The day of a cell, None when it is none that a tree planted or seen could have.

    >>> day_of("2027-02-13"), day_of("13 February"), day_of("9999-12-31")
    (datetime.date(2027, 2, 13), None, None)
    """
    try:
        day = date.fromisoformat(text)
    except ValueError:
        return None
    return day if FIRST_YEAR <= day.year <= LAST_YEAR else None
