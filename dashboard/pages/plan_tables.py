"""The plan's trees, shopping list, calendar and effort as tables that can be read aloud."""

import math
import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date
from html import escape
from typing import Any

import pandas as pd

from dashboard import theme
from dashboard.pages.plan_forms import points
from model.language import MONTH_AND_YEAR, SHORT_DAY, SHORT_DAY_AND_YEAR, _, dated
from model.planting.buying.bill import bill
from model.planting.order import Order
from model.planting.placement import Placement
from model.planting.plan_words import partners
from model.study import Study
from model.trees import full_size

Shown = Callable[[str], str]
BRACKETS = re.compile(r"\s*\([^()]*\)")
SENTENCE = re.compile(r"(?<=[.]) (?=[A-Z])")


def table(caption: str, columns: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """A table; the first cell of a row heads it. Every word is escaped."""
    head = "".join(f"<th scope='col'>{escape(one)}</th>" for one in columns)
    body = "".join(
        f"<tr><th scope='row'>{escape(row[0])}</th>"
        + "".join(
            f"<td data-label='{escape(name)}'>{escape(cell)}</td>"
            for name, cell in zip(columns[1:], row[1:], strict=True)
        )
        + "</tr>"
        for row in rows
    )
    cap = f"<caption>{escape(caption)}</caption>" if caption else ""
    return f"<table>{cap}<thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>"


def trees_table(study: Study, order: Order, placement: Placement, shown: Shown) -> str:
    """Every tree: number, place, score, partners, crown."""
    columns = (_("Tree"), _("Place"), _("Score of 100"), _("Partners in flower"), _("Full crown"))
    rows = []
    for number, tree in enumerate(placement.trees, start=1):
        fertility = study.ground.soils.fertility[[tree.place]]
        low, typical, high = full_size(study.traits, fertility).spread[:, tree.option, -1]
        crown = _("about {typical} m, {low} to {high} m").format(
            typical=f"{typical:.1f}", low=f"{low:.1f}", high=f"{high:.1f}"
        )
        label = f"{number} {study.options[tree.option].label}"
        wish = f" ({tree.wish})" if tree.wish and tree.wish not in label else ""
        rows.append(
            (label + wish, shown(tree.name), points(tree.score),
             shown(partners(study, order, tree)), shown(crown))
        )  # fmt: skip
    return table(_("The trees, numbered as on the map"), columns, rows)


def shopping_table(needs: pd.DataFrame, shown: Shown) -> str:
    """What to buy, with its bill."""
    due = bill(needs)
    columns = (_("Item"), _("Quantity"), _("Each"), _("Price"), _("For"), _("Why"), _("Source"))
    rows = [
        (
            row["item"], f"{row['quantity']:g} {row['unit']}", _money(row["each"]),
            f"{_money(row['price'])} {row['currency']}".strip(), shown(row["trees"]),
            shown(row["why"]), row["source"],
        )
        for row in needs.to_dict("records")
    ]  # fmt: skip
    return f"<p class='first'>{escape(due.words)}</p>" + table(_("What to buy"), columns, rows)


def _money(value: float) -> str:
    return "\N{EN DASH}" if math.isnan(value) else f"{value:.2f}"


def calendar_text(calendar: pd.DataFrame, shown: Shown) -> str:
    """The tasks by the month in which they begin."""
    parts = []
    firsts = [date.fromisoformat(one) for one in calendar["first"]]
    months = dict.fromkeys((day.year, day.month) for day in firsts)
    for year, month in months:
        heading = dated(date(year, month, 1), MONTH_AND_YEAR)
        tasks = [
            _task(row, day, shown)
            for row, day in zip(calendar.to_dict("records"), firsts, strict=True)
            if (day.year, day.month) == (year, month)
        ]
        parts.append(f"<h3>{escape(heading)}</h3><ul>{''.join(tasks)}</ul>")
    return "".join(parts)


def _task(row: Mapping[Any, str], first: date, shown: Shown) -> str:
    last = date.fromisoformat(row["last"])
    caution = f"<p class='caution'>{escape(shown(row['caution']))}</p>" if row["caution"] else ""
    days = f"{dated(first, SHORT_DAY)} \N{EN DASH} {dated(last, SHORT_DAY_AND_YEAR)}"
    return (
        f"<li><b>{escape(row['what'])}</b> <span class='days'>{escape(days)}</span>"
        f"<p>{escape(shown(row['trees']))}. {escape(shown(row['how']))}</p>{caution}</li>"
    )


def effort_table(effort: pd.DataFrame, shown: Shown) -> str:
    """Walking and watering, a row a tree and the whole at the end."""
    columns = (
        _("Tree"), _("Visits a year"), _("There and back [min]"), _("Walking [min a year]"),
        _("Watering, first summer [min]"), _("in a dry one [min]"),
    )  # fmt: skip
    rows = [
        (
            shown(_(row["tree"])), _figure(row["visits"]),
            _figure(row["walk_there_and_back_min"], 1), _figure(60 * row["walking_h_a_year"]),
            _figure(row["water_1_median_min"]), _figure(row["water_1_dry_min"]),
        )
        for row in effort.to_dict("records")
    ]  # fmt: skip
    last = effort["says"].iloc[-1] if len(effort) else ""
    return f"<p class='first'>{escape(shown(last))}</p>" + table(
        _("Walking and watering"), columns, rows
    )


def _figure(value: float, decimals: int = 0) -> str:
    return "\N{EN DASH}" if not math.isfinite(value) else f"{value:.{decimals}f}"


def cautions_text(cautions: Iterable[str], calendar: pd.DataFrame, shown: Shown) -> str:
    """Every caution once; the calendar says with each task where it applies."""
    told = dict.fromkeys([*cautions, *map(_without_places, calendar["caution"])])
    single = dict.fromkeys(one for text in told for one in SENTENCE.split(text) if one)
    items = "".join(f"<li>{escape(shown(one))}</li>" for one in single)
    said = _("Local codes and licensed practice come before everything said here.")
    return f"<p class='first'>{escape(said)}</p><ul class='cautions'>{items}</ul>"


def _without_places(text: str) -> str:
    """A caution without the places in brackets, which may hold bearings in brackets."""
    while (less := BRACKETS.sub("", text)) != text:
        text = less
    return text.strip()


TABLES = f"""
:host {{ font: 13px/1.4 {theme.FONT}; color: {theme.INK}; display: block; width: 100%; }}
h2 {{ font-size: 17px; margin: 4px 0; }}
h3 {{ font-size: 14px; margin: 12px 0 2px; }}
p {{ margin: 2px 0; max-width: 90ch; }}
p.first {{ font-size: 15px; font-weight: 600; margin: 4px 0 8px; }}
table {{ border-collapse: collapse; width: 100%; font-variant-numeric: tabular-nums; }}
caption {{ text-align: left; font-weight: 600; padding: 4px 0; }}
th, td {{ text-align: left; vertical-align: top; padding: 4px 10px 4px 0;
  border-bottom: 1px solid {theme.FAINT}; }}
thead th {{ color: {theme.QUIET}; }}
ul {{ list-style: none; margin: 2px 0; padding: 0; }}
li {{ border-bottom: 1px solid #e3e7ea; padding: 4px 0; }}
.days {{ color: {theme.QUIET}; margin-left: 8px; }}
.caution, .cautions li {{ border-left: 3px solid {theme.ACCENT}; padding: 2px 8px; margin: 4px 0; }}
@media (max-width: {theme.NARROW - 1}px) {{
  thead {{ position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }}
  tbody {{ display: block; }}
  tr {{ display: block; border-top: 2px solid {theme.FAINT}; padding: 6px 0; }}
  th[scope=row] {{ display: block; border: 0; font-size: 14px; }}
  td {{ display: block; border: 0; padding: 1px 0; overflow-wrap: anywhere; }}
  td::before {{ content: attr(data-label) ": "; color: {theme.QUIET}; }}
}}
"""
