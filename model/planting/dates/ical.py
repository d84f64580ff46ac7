"""The planting calendar as iCalendar (RFC 5545), for any calendar program."""

import hashlib
from datetime import UTC, date, datetime, timedelta

import icalendar
import pandas as pd

from model.language import _

MAKER = "-//Treestead//planting calendar//EN"
DOMAIN = "planting.treestead.invalid"  # a name that RFC 2606 keeps free, for identifiers alone


def ical(calendar: pd.DataFrame, name: str, winter: int) -> bytes:
    """A calendar as one all-day event a task; the same calendar gives the same bytes.

    `name` is the site's. An event's identifier follows from the site, the winter, the task and its
    trees, not from its dates: a calendar read in again after a change moves its events and makes
    no second ones. Events leave the day free. Source: RFC 5545, Desruisseaux (2009).
    """
    book = icalendar.Calendar()
    book.add("prodid", MAKER)
    book.add("version", "2.0")
    book.add("calscale", "GREGORIAN")
    book.add("x-wr-calname", _("{site}: planting").format(site=name))
    seen: dict[str, int] = {}
    for row in calendar.to_dict("records"):
        task = "\n".join((name, str(winter), row["what"], row["trees"]))
        seen[task] = seen.get(task, 0) + 1
        book.add_component(_event(row, _identifier(f"{task}\n{seen[task]}"), winter))
    return book.to_ical()


def _event(row: dict, identifier: str, winter: int) -> icalendar.Event:
    """One task; its last day is the day before the end, as the standard has it."""
    event = icalendar.Event()
    event.add("uid", identifier)
    event.add("dtstamp", datetime(winter, 1, 1, tzinfo=UTC))
    event.add("dtstart", date.fromisoformat(row["first"]))
    event.add("dtend", date.fromisoformat(row["last"]) + timedelta(days=1))
    event.add("summary", row["what"])
    event.add("description", _description(row))
    event.add("transp", "TRANSPARENT")
    return event


def _description(row: dict) -> str:
    parts = [row["trees"], row["how"]]
    if row["caution"]:
        parts.append(_("Caution: {caution}").format(caution=row["caution"]))
    return "\n".join([*parts, _("Source: {source}").format(source=row["source"])])


def _identifier(task: str) -> str:
    return f"{hashlib.sha256(task.encode()).hexdigest()[:32]}@{DOMAIN}"
