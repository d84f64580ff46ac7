"""The report's cautions: all of them, each once, whatever the trees' places are called."""

from dataclasses import replace
from datetime import date

import pytest

from dashboard.report import findings, folder_plan
from dashboard.report.cautions import cautions
from model.planting.dates.service_cautions import UNDER_A_LINE
from tests.dashboard.report_reader import read

NEAR = (
    "House line 6.4 m from 18.1 m north-west (324°) of Screen; "
    "House line 8.8 m from 4.4 m west (255°) of Lane corner"
)


@pytest.fixture
def found(study):
    return findings(study, folder_plan(study, study.site.folder), date(2026, 11, 28))


def also(found):
    text = read(f"<main>{cautions(found, feet=False)}</main>").text
    return text.partition("Also")[2]  # empty where nothing is left to say


def test_of_a_caution_with_places_in_brackets_nothing_is_left_over(found):
    calendar = found.calendar.assign(caution=f"{UNDER_A_LINE} ({NEAR})")
    said = also(replace(found, calendar=calendar))
    assert "House line" not in said
    assert "Screen" not in said
    assert ")" not in said


def test_a_caution_of_the_calendar_that_is_not_said_above_is_said_once(found):
    calendar = found.calendar.assign(caution="Wasps in the fallen fruit.")
    assert also(replace(found, calendar=calendar)).count("Wasps in the fallen fruit.") == 1
