"""Picking spread over the season: at most so many trees ripe at once, some ripe all the way."""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from model.language import _
from model.trees.card import day_in_words

Array = np.ndarray
FORTNIGHT = 14  # [days]
YEAR = 365
HALF_A_YEAR = 182  # [days] by which the south is later than the catalogue's northern days


@dataclass(frozen=True)
class PickingSpread:
    """What the picking of an order is to be like; as it comes unless said otherwise.

    most_at_once: at most so many trees ripe in any one fortnight. parts: the season, from the
    first pick to the last of all that the order may hold, cut into so many equal parts, at least
    one tree ripe in each.
    """

    most_at_once: int | None = None
    parts: int = 0


AS_IT_COMES = PickingSpread()


@dataclass(frozen=True)
class Window:
    """A stretch of the picking season: its dates in words, who is ripe then, how many may be."""

    label: str
    options: tuple[bool, ...]
    least: int
    most: float


def windows(
    first: Array, last: Array, wished: Array, spread: PickingSpread, *, north: bool
) -> tuple[Window, ...]:
    """The windows that a spread asks for; none where it asks for nothing.

    first, last (option,) [day of the year in the north]: picking, NaN where not known, and then
    in no window. wished (option,) bool: options that the order may hold.
    """
    known = np.asarray(wished, bool) & np.isfinite(first) & np.isfinite(last)
    if not known.any():
        return ()
    last = np.where(last < first, last + YEAR, last)
    begins, ends = float(first[known].min()), float(last[known].max())
    spans: list[tuple[float, float, int, float]] = []
    if spread.most_at_once is not None:
        starts = np.arange(begins, ends + 1, FORTNIGHT).tolist()
        spans += [(day, day + FORTNIGHT - 1, 0, spread.most_at_once) for day in starts]
    if spread.parts:
        edges = np.linspace(begins, ends + 1, spread.parts + 1).tolist()
        spans += [(day, after - 1, 1, np.inf) for day, after in pairwise(edges)]
    found = []
    for start, end, least, most in spans:
        ripe = known & (first <= end) & (last >= start)
        label = dates_in_words(start, end, north=north)
        found.append(Window(label, tuple(ripe.tolist()), least, most))
    return tuple(found)


def dates_in_words(first: float, last: float, *, north: bool) -> str:
    """Two days of the northern year as dates of the site's hemisphere.

    >>> dates_in_words(244, 257, north=True)
    '1 September to 14 September'
    >>> dates_in_words(244, 257, north=False)
    '2 March to 15 March'
    """
    shift = 0 if north else HALF_A_YEAR
    days = [(round(day) + shift - 1) % YEAR + 1 for day in (first, last)]
    begins, ends = (day_in_words(day) for day in days)
    return _("{first} to {last}").format(first=begins, last=ends)
