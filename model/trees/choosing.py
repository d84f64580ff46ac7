"""Finding trees in a long list: what fits a wish, one question at a time, and in what order."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from model.trees.catalogue import Catalogue
from model.trees.option import Option

Which = NDArray[np.bool_]
DUAL = "dual"
FOR_BOTH = ("dessert", "cooking")
MONTH_STARTS = (1, 32, 60, 91, 121, 152, 182, 213, 244, 274, 305, 335, 366)  # days of a common year
YEAR = 365
HALF_A_YEAR = 182  # [days] by which the south is later than the catalogue's northern days
NEED_NO_PARTNER = ("yes",)


def found_words(catalogue: Catalogue, options: Sequence[Option]) -> tuple[str, ...]:
    """All names an option goes by, folded: fruit, cultivar, its other names, rootstock."""
    names: dict[tuple[str, str], str] = {}
    for option in options:
        key = (option.species, option.cultivar)
        if key not in names:
            also = catalogue.value("cultivars", key, "also_called")
            names[key] = " ".join((*key, str(also.value) if also else ""))
    return tuple(folded(f"{names[o.species, o.cultivar]} {o.rootstock}") for o in options)


def folded(words: str) -> str:
    """Words without regard to capitals, underscores and kind of apostrophe.

    >>> folded("Ashmead\u2019s Kernel")
    'ashmeads kernel'
    """
    plain = words.casefold().replace("_", " ").replace("\u2019", "").replace("'", "")
    return " ".join(plain.split())


def named(words: Sequence[str], text: str) -> Which:
    """Which names hold every word of a text (option,).

    >>> named(("apple bramley m25", "pear conference quince a"), "Bramley M25").tolist()
    [True, False]
    """
    asked = folded(text).split()
    return np.array([all(word in name for word in asked) for name in words], dtype=bool)


def of_use(uses: Sequence[str], use: str) -> Which:
    """Which fruit is for a use (option,); dual is for the table and for the kitchen.

    >>> of_use(("dessert", "dual", "nut"), "dessert").tolist()
    [True, True, False]
    """
    meeting = {use} | ({DUAL} if use in FOR_BOTH else set())
    return np.array([one in meeting for one in uses], dtype=bool)


def no_taller(height: ArrayLike, most: float) -> Which:
    """Which trees usually stay at or under a height [m] (option,); an unknown height does not."""
    return np.asarray(height, dtype=float) <= most


def ripe_in(first: ArrayLike, last: ArrayLike, month: int, *, north: bool) -> Which:
    """Which fruit is picked in a month, 1 to 12, of the site's hemisphere (option,).

    `first`, `last` [day of year in the north]; a season may cross the new year. Not known is not
    ripe.

    >>> ripe_in([244, 350], [258, 10], 9, north=True).tolist()
    [True, False]
    >>> ripe_in([244], [258], 3, north=False).tolist()
    [True]
    """
    shift = 0 if north else HALF_A_YEAR
    begins = np.asarray(first, dtype=float) + shift
    ends = np.asarray(last, dtype=float) + shift
    ends = np.where(ends < begins, ends + YEAR, ends)
    start, end = MONTH_STARTS[month - 1], MONTH_STARTS[month] - 1
    meets = [(begins <= end + turn) & (ends >= start + turn) for turn in (0, YEAR, 2 * YEAR)]
    return np.any(meets, axis=0)


def needs_no_partner(self_fertile: Sequence[str], pollination: Sequence[str]) -> Which:
    """Which trees crop alone (option,): self-fertile ones, and those that need no pollen."""
    pairs = zip(self_fertile, pollination, strict=True)
    return np.array([s in NEED_NO_PARTNER or p == "none needed" for s, p in pairs], dtype=bool)


def ordered(key: Sequence[float] | Sequence[str], *, falling: bool = False) -> NDArray[np.int_]:
    """Numbers of the options in order of a key, what is not known always last; ties keep theirs.

    >>> ordered([3.0, float("nan"), 1.0], falling=True).tolist()
    [0, 2, 1]
    """
    values = np.asarray(key)
    _, rank = np.unique(values, return_inverse=True)
    rank = -rank if falling else rank
    known = values == values if values.dtype.kind == "f" else values != ""  # noqa: PLR0124 -- NaN
    return np.lexsort((rank, ~known))


def uses_of(catalogue: Catalogue, options: Sequence[Option]) -> tuple[str, ...]:
    """What each option's fruit is for, an empty word where the catalogue does not say."""
    values = (catalogue.value("cultivars", (o.species, o.cultivar), "use") for o in options)
    return tuple(str(value.value) if value else "" for value in values)
