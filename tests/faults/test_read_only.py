"""Folders that can only be read: the app opens, and says in a sentence what it cannot keep."""

import os

import pytest

from tests.faults.confined import room, told_by


@pytest.fixture(scope="module")
def told(tmp_path_factory):
    if not hasattr(os, "geteuid") or (room() is None and os.geteuid() == 0):
        pytest.skip("nothing can be made read-only for root here, which may mount nothing")
    folder = tmp_path_factory.mktemp("read")
    (folder / "data").mkdir()
    return told_by("read_only", folder, in_room=room() is not None)


def test_a_survey_folder_that_can_only_be_read_is_opened_and_left_as_it_is(told):
    assert told["opened"] == "New site"
    assert told["field unharmed"]


def test_a_store_that_can_only_be_read_is_read_and_does_no_harm(told):
    assert told["sun from the store"]
    assert told["computed"]


def test_changes_are_kept_all_the_same_and_saving_says_why_it_cannot(told):
    assert told["kept"] is True
    assert told["saved"].startswith("Not saved: ")
    assert told["copy stays"]
    assert told["given up"]


def test_a_copy_that_can_only_be_read_is_found_and_says_what_it_cannot_keep(told):
    assert told["found again"]
    assert told["kept then"] is False
    assert told["keep said"].startswith("Not kept: order.csv could not be written (")
    assert told["back said"].startswith("Not given up: ")
    assert told["still there"]


def test_who_has_no_copy_can_look_but_is_told_that_nothing_is_kept(told):
    assert told["fresh"] is False
    assert told["fresh said"].startswith("Not kept: order.csv could not be written (")


def test_a_vote_that_can_only_be_read_acknowledges_nothing(told):
    assert told["vote"].startswith("The vote cannot be reached: its ballots")
