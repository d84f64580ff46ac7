"""What to buy, what to do when, and what it asks in walking and watering."""

import math
from collections.abc import Mapping
from datetime import date
from itertools import groupby
from typing import Any

from dashboard.report.findings import Findings
from dashboard.report.tags import paragraphs, row, table, tag, words
from dashboard.units import spoken
from model.language import MONTH_AND_YEAR, SHORT_DAY, SHORT_DAY_AND_YEAR, _, dated
from model.planting.buying.bill import bill
from model.planting.dates.service_cautions import BEFORE_DIGGING

DASH = "\N{EN DASH}"


def shopping(found: Findings, *, feet: bool) -> str:
    """Quantities, prices, what for and why, with the bill."""
    columns = (_("Item"), _("Quantity"), _("Each"), _("Together"), _("For"), _("Why, and source"))
    rows = [
        [
            row["item"], f"{row['quantity']:g} {row['unit']}", money(row["each"]),
            f"{money(row['price'])} {row['currency']}".strip(), spoken(row["trees"], feet),
            spoken(f"{row['why']}. ({row['source']})", feet),
        ]
        for row in found.needs.to_dict("records")
    ]  # fmt: skip
    said = [bill(found.needs).words, _("Prices are those of prices.csv; ask for a quotation.")]
    return paragraphs(said) + table(_("What to buy"), columns, rows, "shopping")


def money(value: float) -> str:
    """A price, a dash where it is not known.

    >>> money(12.5), money(float("nan"))
    ('12.50', '–')
    """
    return DASH if math.isnan(value) else f"{value:.2f}"


def tasks(found: Findings, *, feet: bool) -> str:
    """The calendar by the month in which each task begins."""
    columns = (_("When"), _("What"), _("For"), _("How, cautions, source"))
    head = "".join(f'<th scope="col">{words(one)}</th>' for one in columns)
    bodies = []
    records = found.calendar.to_dict("records")
    for month, group in groupby(records, key=lambda one: one["first"][:7]):
        title = dated(date.fromisoformat(f"{month}-01"), MONTH_AND_YEAR)
        top = f'<tr class="month"><th colspan="4" scope="rowgroup">{words(title)}</th></tr>'
        lines = "".join(row(columns, _task(one, feet), raw=(3,)) for one in group)
        bodies.append(f"<tbody>{top}{lines}</tbody>")
    note = _("From the order to the third autumn. The dates follow this site's own weather; the "
             "weather of the day decides.")  # fmt: skip
    return (
        f'{tag("p", note)}<table class="calendar"><caption>{words(_("What to do when"))}</caption>'
        f"<thead><tr>{head}</tr></thead>{''.join(bodies)}</table>"
    )


def _task(task: Mapping[Any, Any], feet: bool) -> list[str]:
    first, last = date.fromisoformat(task["first"]), date.fromisoformat(task["last"])
    shows = SHORT_DAY if last.year == first.year else SHORT_DAY_AND_YEAR
    days = f"{dated(first, SHORT_DAY)} {DASH} {dated(last, shows)}"
    caution = task["caution"]
    if caution.startswith(_(BEFORE_DIGGING)):
        caution = _("Ask the operators first: see the cautions at the front.")
    said = words(spoken(task["how"], feet))
    if caution:
        said += f" <b>{words(spoken(caution, feet))}</b>"
    if task["source"]:
        said += f' <span class="source">({words(task["source"])})</span>'
    return [days, task["what"], spoken(task["trees"], feet), said]


def effort_table(found: Findings, *, feet: bool) -> str:
    """Walking and watering, a row a tree and the whole at the end."""
    columns = (
        _("Tree"), _("Visits a year"), _("There and back [min]"), _("Walking [min a year]"),
        _("Watering, first summer [min]"), _("the same, a dry one [min]"),
    )  # fmt: skip
    rows = [
        [
            spoken(_(row["tree"]), feet), figure(row["visits"]),
            figure(row["walk_there_and_back_min"], 1), figure(60 * row["walking_h_a_year"]),
            figure(row["water_1_median_min"]), figure(row["water_1_dry_min"]),
        ]
        for row in found.effort.to_dict("records")
    ]  # fmt: skip
    last = found.effort["says"].iloc[-1] if len(found.effort) else ""
    return tag("p", spoken(last, feet)) + table(_("Walking and watering"), columns, rows, "figures")


def figure(value: float, decimals: int = 0) -> str:
    """A figure, a dash where it is not known or never comes to an end."""
    return f"{value:.{decimals}f}" if math.isfinite(value) else DASH
