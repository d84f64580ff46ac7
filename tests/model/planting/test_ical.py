"""The iCalendar file: read by another program as it was meant, the same bytes every time."""

from datetime import timedelta

import pandas as pd
import pytest
import vobject

from model.planting.dates.calendar import CALENDAR, calendar
from model.planting.dates.ical import ical
from tests.model.planting.plans import plan
from tests.model.small_site import study

AWKWARD = 'Quinces; "old", and \\ a backslash'


@pytest.fixture(scope="module")
def tasks():
    made = study()
    return calendar(made, plan(made, (10.0, 10.0, 0), (20.0, 40.0, 2)), 2027)


def events(data: bytes):
    return list(vobject.readOne(data.decode("utf-8")).vevent_list)


def test_an_independent_reader_finds_every_task_on_its_days(tasks):
    read = events(ical(tasks, "made up", 2027))
    found = sorted(
        (
            e.dtstart.value.isoformat(),
            (e.dtend.value - timedelta(days=1)).isoformat(),
            e.summary.value,
        )
        for e in read
    )
    assert found == sorted(zip(tasks["first"], tasks["last"], tasks["what"], strict=True))


def test_the_same_calendar_gives_the_same_bytes(tasks):
    assert ical(tasks, "made up", 2027) == ical(tasks.copy(), "made up", 2027)


def test_every_event_has_an_identifier_of_its_own_that_a_new_date_does_not_change(tasks):
    moved = tasks.assign(last=tasks["last"].str.replace("2028", "2029"))
    before, after = (
        [e.uid.value for e in events(ical(one, "made up", 2027))] for one in (tasks, moved)
    )
    assert len(set(before)) == len(before)
    assert before == after


def test_awkward_text_comes_back_as_written(tasks):
    row = dict.fromkeys(CALENDAR, AWKWARD) | {"first": "2027-12-01", "last": "2027-12-01"}
    (event,) = events(ical(pd.DataFrame([row]), AWKWARD, 2027))
    assert event.summary.value == AWKWARD
    assert event.description.value.splitlines()[0] == AWKWARD
    assert f"Caution: {AWKWARD}" in event.description.value


def test_lines_are_folded_and_ended_as_the_standard_asks(tasks):
    # RFC 5545, Desruisseaux (2009), section 3.1: lines end in CRLF and have at most 75 octets.
    data = ical(tasks, "Obstgärten", 2027)
    lines = data.split(b"\r\n")
    assert b"\n" not in data.replace(b"\r\n", b"")
    assert max(map(len, lines)) <= 75
    assert lines[0] == b"BEGIN:VCALENDAR"


def test_an_event_says_what_must_be_said(tasks):
    # RFC 5545, section 3.6.1: UID and DTSTAMP are required; 3.8.2.7: leaves the day free.
    for event in events(ical(tasks, "made up", 2027)):
        assert event.uid.value
        assert event.dtstamp.value.year == 2027
        assert event.transp.value == "TRANSPARENT"


def test_an_empty_calendar_is_still_one():
    data = ical(pd.DataFrame(columns=CALENDAR), "made up", 2027)
    assert data.startswith(b"BEGIN:VCALENDAR")
    assert b"VEVENT" not in data
