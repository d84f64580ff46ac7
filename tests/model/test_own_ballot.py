"""Promises of the sentence that a group reads while it fills in its ballot."""

import numpy as np
import pytest

from model.group.agreement import agreement
from model.group.ballot import Ballot
from model.group.own_ballot import own_differences, own_result

from .demo import demo_study

STUDY = demo_study()
NAMES = [factor.name for factor in STUDY.factors]
LABELS = ("Plum", "Pear", "Quince")
WORTH = np.array([[0.9, 0.5, 0.7], [0.2, 0.8, 0.7]])
ALL = np.ones(3, dtype=bool)


def result(weights, trade_off=1.0, allowed=ALL) -> str:
    return own_result(WORTH, allowed, np.array(weights, dtype=float), trade_off, LABELS, "the gate")


def test_the_leader_follows_from_the_weights() -> None:
    # By hand: 0.9 * 0.8 + 0.2 * 0.2 = 0.76, and 0.56 and 0.70 for the others.
    said = "With your weights: Plum leads at the gate with 76 of 100, by 6 over Quince."
    assert result([4, 1]) == said
    assert result([1, 3]).startswith("With your weights: Pear leads")


def test_only_proportions_of_weights_count() -> None:
    assert result([0.4, 0.1]) == result([80, 20])


def test_a_weak_point_that_decides_turns_the_choice() -> None:
    assert "Quince leads" in result([3, 1], trade_off=-10)


def test_a_tie_is_said_as_a_tie() -> None:
    # 0.7 at any weights for the quince; 0.9 w + 0.2 (1 - w) = 0.7 at w = 5/7 for the plum.
    assert result([5, 2]) == "With your weights: Plum and Quince are a tie at the gate, 70 of 100."


@pytest.mark.parametrize(
    ("allowed", "said"),
    [
        ([False, True, False], "Pear, 65 of 100, is all that can stand at the gate"),
        ([False, False, False], "Nothing that you want considered can stand at the gate."),
    ],
)
def test_what_may_not_stand_is_not_named(allowed, said) -> None:
    assert said in result([1, 1], allowed=np.array(allowed))


def test_no_weight_asks_for_some() -> None:
    assert "move at least one slider" in result([0, 0])


def test_the_sentence_names_the_choice_that_the_agreement_counts() -> None:
    ballot = Ballot("Sun", {"sunlight": 5.0, "spacing": 2.0, "late_frost": 1.0}, -1.0)
    voice = agreement(STUDY, [ballot]).voices[0]
    weights = np.array([ballot.weights.get(name, 0.0) for name in NAMES])
    labels = tuple(option.label for option in STUDY.options)
    place = STUDY.place
    allowed = ~STUDY.ruling.ruled_out[:, place]
    worth = STUDY.desirabilities[:, :, place].astype(float)
    said = own_result(worth, allowed, weights, -1.0, labels, "here")
    assert all(labels[one] in said for one in voice.winners)


def test_a_group_reads_where_it_differs_in_points() -> None:
    low = dict.fromkeys(NAMES, 1.0)
    ballots = [Ballot("Rest", low, -1.0), Ballot("Rest too", low, -1.0)]
    found = agreement(STUDY, [*ballots, Ballot("Sun", low | {"sunlight": 40.0}, -1.0)])
    own = next(voice for voice in found.voices if voice.group == "Sun")
    sun = NAMES.index("sunlight")
    first = own_differences(found, "Sun")[1]
    assert f"sunlight {100 * own.shares[sun]:.0f} %" in first
    assert f"in common {100 * found.consensus.shares[sun]:.0f} %" in first
    assert own_differences(found, "Nobody") == ()


def test_groups_of_one_mind_read_that_they_are_close() -> None:
    same = dict.fromkeys(NAMES, 1.0)
    found = agreement(STUDY, [Ballot(name, same, -1.0) for name in ("A", "B")])
    assert own_differences(found, "A")[1:] == ("Your weights are close to those in common.",)
