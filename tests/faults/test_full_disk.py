"""A full disk: nothing that was kept before is damaged, and the visitor is told in a sentence."""

import pytest

from tests.faults.confined import room, told_by

pytestmark = pytest.mark.slow

pytest.importorskip("resource")


@pytest.fixture(scope="module")
def cases(tmp_path_factory):
    folder = tmp_path_factory.mktemp("full")
    return told_by("full_disk", folder, in_room=room() is not None)


@pytest.fixture(params=["disk", "limit"])
def told(request, cases):
    if request.param not in cases:
        pytest.skip("no small disk can be mounted here: neither root nor namespaces for all")
    return cases[request.param]


def test_keeping_fails_in_a_sentence(told):
    for kept, said in (("kept", "keep"), ("fresh", "fresh said")):
        assert told[kept] is False
        assert told[said].startswith("Not kept: order.csv could not be written (")
    assert told["together"] is False


def test_what_was_kept_and_saved_before_is_as_it_was(told):
    assert told["saved"].startswith("OSError")
    assert told["unharmed"]
    assert not told["fresh has a copy"]


def test_nothing_half_done_is_left_to_fill_the_disk_further(told):
    assert told["left over"] == []


def test_no_ballot_is_acknowledged_that_is_not_kept(told):
    assert told["cast"].startswith("The vote cannot be reached: the disk that its ballots are kept")
    assert "Nothing was kept" in told["cast"]
    assert not told["lost"]


def test_the_ground_is_computed_all_the_same(told):
    assert told["ground"]


def test_all_goes_on_once_there_is_room(told):
    assert told["kept after"] is True
    assert told["saved after"] == "order.csv"
    assert told["all saved"]
    assert told["cast after"] == "acknowledged"
    assert told["sunlight after"] == [9000]


def test_the_command_line_leaves_its_old_tables_whole_and_says_what_is_wrong(cases):
    assert cases["tables"]["tables failed"]
    assert cases["tables"]["tables unharmed"]
    code, said = cases["tables"]["command"]
    assert code == 1
    assert said.strip() == "File too large"
