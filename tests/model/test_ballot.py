"""Promises of a ballot: what is taken, and what is said of the rest."""

import pytest

from model.group.ballot import LONGEST_NAME, Ballot, BallotFaults


def faults(**changed: object) -> tuple[str, ...]:
    """What is said of a ballot that is right but for what is changed."""
    good = {"group": "Growers", "weights": {"sunlight": 2, "views": 0}, "trade_off": -1.0}
    with pytest.raises(BallotFaults) as caught:
        Ballot(**(good | changed))
    return caught.value.faults


@pytest.mark.parametrize("name", ["Été", "البستان", "果樹園", "می‌خواهم", "🍏 & 🍐", "x" * 60])
def test_a_name_may_be_in_any_script(name) -> None:
    assert Ballot(name, {"sunlight": 1}, 0).group == name


def test_one_name_has_one_spelling() -> None:
    assert Ballot(" Cafe\u0301  nine", {"sunlight": 1}, 0).group == "Caf\u00e9 nine"


@pytest.mark.parametrize("name", ["", "   ", None, "x" * (LONGEST_NAME + 1), "a\x00b", "\u202eb"])
def test_a_name_that_cannot_be_read_is_refused(name) -> None:
    (said,) = faults(group=name)
    assert "name" in said


@pytest.mark.parametrize("weight", [-1, float("nan"), float("inf"), "2", True, None])
def test_a_weight_that_is_no_number_of_0_or_more_is_refused(weight) -> None:
    assert "weight of sunlight" in faults(weights={"sunlight": weight, "views": 1})[0]


def test_an_unknown_factor_is_named_with_the_nearest_known() -> None:
    (said,) = faults(weights={"sunlihgt": 1})
    assert "'sunlihgt'" in said
    assert "'sunlight'" in said


@pytest.mark.parametrize("weights", [{}, {"sunlight": 0}])
def test_a_ballot_without_any_weight_is_refused(weights) -> None:
    assert faults(weights=weights) == ("No factor has any weight: give at least one some.",)


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("trade_off", 2.0),
        ("trade_off", float("nan")),
        ("options", "Apple"),
        ("options", ("",)),
        ("options", ("a\x00",)),
        ("round", 0),
        ("round", 1.5),
        ("at", "yesterday"),
        ("weights", [1, 2]),
    ],
)
def test_what_is_out_of_bounds_is_refused(field, value) -> None:
    assert len(faults(**{field: value})) == 1


def test_all_faults_are_said_at_once() -> None:
    assert len(faults(group="", weights={"sunlight": -1, "views": 1}, trade_off=9)) == 3
