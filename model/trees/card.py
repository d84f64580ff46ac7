"""The lines of an option's card, in the order they are read."""

from datetime import date, timedelta
from typing import NamedTuple

from model.language import dated
from model.trees.value import Value
from model.trees.vocabulary import BLOSSOM_STAGES, VISITS, VOCABULARY


class Line(NamedTuple):
    """One line of a card."""

    label: str
    value: str
    unit: str
    source: str
    status: str


_CULTIVAR = (
    *("latin", "also_called", "use", "flower_group", "flower_group_note", "ploidy"),
    *("self_fertile", "pollination", "incompatible_with", "s_alleles", "pick_first", "pick_last"),
    *("vigour", "sun_need", "sun_good", "chill_need", "heat_need", "july_temperature"),
    *(f"frost_{share}_{stage}" for stage in BLOSSOM_STAGES for share in (10, 90)),
    *("cold_limit", "hardiness", "rain_low", "rain_high", "rain_best_low", "rain_best_high"),
    *("ph_low", "ph_high", "ph_borne_low", "ph_borne_high", "moisture", "texture"),
    *("soil_depth_min", "soil_depth_good", "waterlog", "drought", "wind", "wet_disease"),
    *("scab", "canker", "browse", "site_remark", "mycorrhiza"),
    *(f"visits_{work}" for work in VISITS),
)

_ROOTSTOCK = tuple(
    trait for trait in VOCABULARY["rootstocks"] if trait not in ("serves", "waterlog")
)

CARD: tuple[tuple[str, str], ...] = (
    *(("cultivars", trait) for trait in _CULTIVAR),
    *(("rootstocks", trait) for trait in _ROOTSTOCK),
    ("rootstocks", "waterlog"),
)
"""Table and trait of each line."""


def line(table: str, trait: str, value: Value, citation: str) -> Line:
    """A value as a line of the card."""
    label = VOCABULARY[table][trait].label
    text, unit = str(value.value), value.unit
    if unit == "day of year":
        text, unit = day_in_words(value.number), ""
    elif VOCABULARY[table][trait].numeric:
        text = f"{value.number:.10g}"
    return Line(
        label=f"rootstock: {label}" if table == "rootstocks" else label,
        value=text,
        unit=unit,
        source=f"{citation} ({value.note})" if value.note else citation,
        status=value.status,
    )


def day_in_words(day: float) -> str:
    """A day of the year as a date of a common year.

    >>> day_in_words(244)
    '1 September'
    """
    found = date(2001, 1, 1) + timedelta(days=round(day) - 1)
    return dated(found)
