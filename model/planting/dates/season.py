"""Dates of a planting season in either hemisphere, written as a northern grower says them."""

from calendar import monthrange
from dataclasses import dataclass
from datetime import date, datetime, timedelta

HALF_A_YEAR = 6


@dataclass(frozen=True)
class Season:
    """The winter in which the trees are planted, by the year in which it begins.

    South of the equator every month is half a year later, so that winter 2027 is that of June to
    August 2027 there, and of December 2027 to February 2028 in the north.
    """

    winter: int
    north: bool

    def in_winter(self, month: int, day: int, number: int = 1) -> date:
        """A northern date in the number-th winter, from July before it to June after it.

        >>> Season(2027, north=True).in_winter(2, 1).isoformat()
        '2028-02-01'
        >>> Season(2027, north=False).in_winter(2, 1).isoformat()
        '2027-08-01'
        """
        after_new_year = month <= HALF_A_YEAR
        year = self.winter + number - 1 + (after_new_year and self.north)
        return _date(year, self._month(month), day)

    def in_summer(self, month: int, day: int, number: int = 1) -> date:
        """A northern date in the number-th year of growth, from January to December in the north.

        >>> Season(2027, north=True).in_summer(8, 1).isoformat()
        '2028-08-01'
        >>> Season(2027, north=False).in_summer(8, 1).isoformat()
        '2028-02-01'
        """
        after_midyear = month > HALF_A_YEAR
        year = self.winter + number - (not self.north and not after_midyear)
        return _date(year, self._month(month), day)

    def of_day(self, day_of_year: int, number: int = 1) -> date:
        """A day of the year (1 to 365, as the weather has it) in the number-th winter."""
        found = date(2001, 1, 1) + timedelta(days=int(day_of_year) - 1)
        spring = self.north and found.month <= HALF_A_YEAR
        return _date(self.winter + number - 1 + spring, found.month, found.day)

    def _month(self, month: int) -> int:
        return month if self.north else (month + HALF_A_YEAR - 1) % 12 + 1


def on_or_after(said: str, start: date) -> date:
    """The first time that a date such as '18 June' comes round.

    >>> on_or_after("22 March", date(2027, 9, 1)).isoformat()
    '2028-03-22'
    """
    found = datetime.strptime(f"{said} 2001", "%d %B %Y").date()
    this_year = _date(start.year, found.month, found.day)
    return this_year if this_year >= start else _date(start.year + 1, found.month, found.day)


def later(moment: date, years: int) -> date:
    """The same date some years later."""
    return _date(moment.year + years, moment.month, moment.day)


def _date(year: int, month: int, day: int) -> date:
    """A date, the month's last day where it has no such day."""
    return date(year, month, min(day, monthrange(year, month)[1]))
