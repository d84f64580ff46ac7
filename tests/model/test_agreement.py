"""Promises of an agreement between groups, on the invented demo."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.decision.weights import moved
from model.group.agreement import Agreement, agreement
from model.group.agreement_words import all_points
from model.group.ballot import Ballot
from model.group.second_round import movement
from model.opening import open_study
from model.results import TIE

from .demo import DEMO, demo_study

STUDY = demo_study()
NAMES = [factor.name for factor in STUDY.factors]
EQUAL = dict.fromkeys(NAMES, 1.0)


def ballots(seed: int, count: int = 5, steady: float = 1.0) -> list[Ballot]:
    """Invented ballots round the demo's weights, nearer to them the steadier."""
    rng = np.random.default_rng(seed)
    weights = STUDY.weights * rng.gamma(steady, 1 / steady, (count, len(NAMES)))
    exponents = rng.uniform(-3, 1, count)
    return [
        Ballot(f"Group {n}", dict(zip(NAMES, row, strict=True)), float(p))
        for n, (row, p) in enumerate(zip(weights, exponents, strict=True))
    ]


def fields_alike(one: Agreement, other: Agreement) -> bool:
    """Whether two agreements say and count the same."""
    arrays = ("chosen", "regret", "disagreement", "levelled", "shares")
    return all_points(one) == all_points(other) and all(
        np.array_equal(getattr(one, name), getattr(other, name), equal_nan=True) for name in arrays
    )


@settings(max_examples=15)
@given(st.permutations(range(5)), st.integers(0, 50))
def test_the_order_of_ballots_changes_nothing(order, seed) -> None:
    sent = ballots(seed)
    assert fields_alike(agreement(STUDY, [sent[n] for n in order]), agreement(STUDY, sent))


def test_each_ballot_is_judged_as_the_study_judges_its_weights() -> None:
    sent, study = ballots(3), open_study(DEMO, ground=STUDY.ground)
    for ballot, voice in zip(sent, agreement(study, sent).voices, strict=True):
        weights = np.array([ballot.weights[name] for name in NAMES])
        study.param.update(weights=weights / weights.sum(), trade_off=ballot.trade_off)
        here = study.here()
        assert list(voice.winners) == np.flatnonzero(here.rank == 1).tolist()
        assert voice.scores[here.allowed] == pytest.approx(here.score[here.allowed])
        pegs = study.scores[:, study.ground.places.cells :]
        option, peg = np.unravel_index(np.nanargmax(pegs), pegs.shape)
        assert voice.best == (study.ground.places.cells + peg, option)


def test_ballots_of_one_mind_agree_on_everything() -> None:
    found = agreement(STUDY, [Ballot(name, EQUAL, -1.0) for name in ("A", "B", "C")])
    assert not found.matters
    assert found.rests_on is None
    assert found.concordance.w == pytest.approx(1)
    assert found.consensus.winners == found.voices[0].winners
    assert np.nanmin(found.regret) == pytest.approx(0, abs=1e-12)
    assert any("does not matter" in said for said in all_points(found))


def opposed() -> list[Ballot]:
    """Two ballots over two factors, found on the demo to choose differently at some peg."""
    return [
        Ballot("Early", {"late_frost": 9, "climate_fit": 1}, 0.0),
        Ballot("Warm", {"late_frost": 1, "climate_fit": 9}, 0.0),
    ]


def disputed(sent: list[Ballot]) -> Agreement:
    """The agreement at the first peg where the ballots' disagreement matters."""
    pegs = range(STUDY.ground.places.cells, STUDY.ground.places.x.size)
    return next(found for found in (agreement(STUDY, sent, peg) for peg in pegs) if found.matters)


def test_a_disagreement_matters_where_no_option_wins_with_all() -> None:
    found = disputed(opposed())
    first, second = (set(voice.winners) for voice in found.voices)
    assert not first & second
    assert found.most_chosen == 1
    assert any("the disagreement decides" in said for said in all_points(found))


def test_levelling_the_factor_that_all_rests_on_brings_the_groups_to_one_choice() -> None:
    found = disputed(opposed())
    assert found.turns_on is not None
    assert found.levelled[found.turns_on] == 2
    assert any("2 of 2 groups would choose alike (now 1)" in said for said in all_points(found))


def test_levelling_a_factor_is_voting_with_its_common_weight() -> None:
    """By brute force: every ballot written anew with the common weight of one factor."""
    sent = ballots(6)
    found = agreement(STUDY, sent)
    for number, level in enumerate(found.levelled):
        common = float(found.consensus.shares[number])
        anew = [
            dict(zip(NAMES, moved(voice.shares, number, common), strict=True))
            for voice in found.voices
        ]
        voted = [replace(ballot, weights=w) for ballot, w in zip(sent, anew, strict=True)]
        assert agreement(STUDY, voted).most_chosen == level


def test_the_least_minded_option_costs_no_group_more_than_any_other() -> None:
    found = disputed(opposed())
    lost = [
        max(float(np.nanmax(voice.scores)) - float(voice.scores[option]) for voice in found.voices)
        for option in found.allowed
    ]
    assert found.regret[found.least_minded] == pytest.approx(min(lost))


def test_a_choice_within_a_tie_is_shared() -> None:
    for voice in agreement(STUDY, ballots(4)).voices:
        scores = np.where(voice.wanted, voice.scores, np.nan)
        tied = np.flatnonzero(scores >= np.nanmax(scores) - TIE)
        assert voice.winners == tuple(tied)


def test_the_trade_off_in_common_is_the_median() -> None:
    exponents = (1, -5, 0, -1, -2)
    sent = [replace(ballot, trade_off=p) for ballot, p in zip(ballots(1), exponents, strict=True)]
    found = agreement(STUDY, sent)
    assert found.consensus.trade_off == -1
    assert "the median" in all_points(found)[0]


def test_only_what_a_group_wants_can_be_its_choice() -> None:
    allowed = STUDY.here().allowed
    wanted = STUDY.options[allowed[-1]].label
    found = agreement(STUDY, [Ballot("A", EQUAL, 0, (wanted,)), Ballot("B", EQUAL, 0)])
    assert found.voices[0].winners == (allowed[-1],)
    assert np.flatnonzero(~np.isnan(found.regret)).tolist() == [allowed[-1]]


def test_a_group_whose_wishes_cannot_stand_here_has_no_choice_and_blocks_none() -> None:
    out = STUDY.options[int(np.flatnonzero(STUDY.here().ruled_out)[0])].label
    found = agreement(STUDY, [Ballot("A", EQUAL, 0, (out,)), Ballot("B", EQUAL, 0)])
    assert found.choosing == 1
    assert not found.matters
    assert "Nothing that A wants considered can stand here." in all_points(found)


def test_where_nothing_may_stand_that_is_all_that_is_said() -> None:
    nowhere = int(np.flatnonzero(STUDY.ruling.everywhere)[0])
    (said,) = all_points(agreement(STUDY, ballots(1), nowhere))
    assert "nothing that the groups want considered can stand here" in said


def test_a_factor_left_out_weighs_nothing_in_the_own_choice() -> None:
    found = agreement(STUDY, [Ballot("A", {"sunlight": 1}, -1.0), Ballot("B", EQUAL, -1.0)])
    sunlight = STUDY.desirabilities[NAMES.index("sunlight"), :, STUDY.place]
    allowed = found.allowed
    assert found.voices[0].scores[allowed] == pytest.approx(sunlight[allowed], abs=1e-6)


def test_options_off_the_short_list_are_noted_and_passed_over() -> None:
    found = agreement(STUDY, [Ballot("A", EQUAL, 0, ("Monkey puzzle",))])
    assert found.voices[0].wanted.any()
    assert any("all are considered" in note for note in found.notes)


def test_no_ballot_is_refused_in_words() -> None:
    with pytest.raises(ValueError, match="No ballot to judge yet"):
        agreement(STUDY, [])


def test_one_ballot_is_not_called_an_agreement() -> None:
    first, *rest = all_points(agreement(STUDY, ballots(1, count=1)))
    assert "the one ballot so far" in first
    assert not any("agree" in said for said in rest)


def test_the_weight_they_part_over_is_told_with_its_ends() -> None:
    found = agreement(STUDY, ballots(1))
    shares = found.shares[:, found.rests_on]
    (said,) = [one for one in all_points(found) if one.startswith("They part furthest")]
    low, high = found.voices[shares.argmin()].group, found.voices[shares.argmax()].group
    assert f"{100 * shares.min():.0f} % ({low})" in said
    assert f"{100 * shares.max():.0f} % ({high})" in said


def test_a_second_round_tells_who_changed_and_how_near_they_came() -> None:
    first = disputed(opposed())
    second = agreement(
        STUDY, [replace(ballot, weights=opposed()[1].weights) for ballot in opposed()], first.place
    )
    change = movement(first, second)
    assert [who for who, _, _ in change.changed] == ["Early"]
    assert change.distance[0] > 1
    assert change.distance[1] == pytest.approx(0, abs=1e-9)
    assert change.stayed == 1
    said = " ".join(change.sentences())
    assert "1 of 2 groups changed: Early (from" in said
    assert "the most that choose alike are 2 (before 1)" in said
    assert "nearer together by 100 %" in said


def test_a_second_round_names_who_came_and_who_left() -> None:
    sent = ballots(2, count=3)
    change = movement(agreement(STUDY, sent[:2]), agreement(STUDY, sent[1:]))
    assert (change.came, change.left) == (("Group 2",), ("Group 0",))
    assert change.sentences()[-1] == "New in this round: Group 2. Not heard again: Group 0."


def test_rounds_at_different_places_are_not_compared() -> None:
    first, second = (agreement(STUDY, ballots(1), STUDY.place + step) for step in (0, 1))
    with pytest.raises(ValueError, match="one place only"):
        movement(first, second)
