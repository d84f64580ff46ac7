"""Faults are sentences that tell where, what, and how to mend it."""

import pickle

import pytest

from model.survey.faults import Fault, SurveyFaults, listed, nearest_name, shown

FAULT = Fault("spots.csv", 3, "x_m", "'12 m'", "a number", "writing digits only")


def test_a_fault_reads_as_one_sentence():
    expected = "spots.csv, row 3, x_m: found '12 m', expected a number, mend by writing digits only"
    assert str(FAULT) == expected


def test_a_fault_of_a_whole_file_names_no_row():
    fault = Fault("site.toml", None, "", "nothing", "a file", "making one")
    assert str(fault) == "site.toml: found nothing, expected a file, mend by making one"


def test_survey_faults_are_a_value_error_that_lists_all():
    faults = SurveyFaults([FAULT, FAULT])
    assert isinstance(faults, ValueError)
    assert str(faults).count("spots.csv, row 3") == 2


def test_survey_faults_survive_a_process_boundary():
    assert pickle.loads(pickle.dumps(SurveyFaults([FAULT]))).faults == (FAULT,)  # noqa: S301 - our own bytes


@pytest.mark.parametrize(
    ("slip", "name"), [("hegde", "hedge"), ("Hedge", "hedge"), ("europe/dublin", "Europe/Dublin")]
)
def test_a_slip_is_answered_with_the_nearest_name(slip, name):
    assert name in nearest_name(slip, ["hedge", "wall", "Europe/Dublin"])


def test_what_was_found_is_shown_short():
    assert len(shown("x" * 1000)) < 70
    assert shown("") == "nothing"
    assert shown(True) == "true"


def test_names_are_listed_as_in_a_sentence():
    assert listed(["one"]) == "one"
    assert listed(["one", "two"]) == "one or two"
