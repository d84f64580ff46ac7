"""Why one place or tree is not the choice: the parts add up, and the words are those of the study.

Sentences are held to the study's own figures; their form is common practice, no source.
"""

import re

import numpy as np
import pytest

from model.comparison import Choice, best_choice, best_place, comparison, points, why_not
from model.opening import open_study
from tests.model.demo import DEMO


@pytest.fixture(scope="module")
def study():
    return open_study(DEMO)


def pegs(study):
    places = study.ground.places
    return range(places.cells, places.x.size)


@pytest.mark.parametrize("trade_off", [1.0, 0.0, -1.0, -10.0])
def test_the_parts_sum_to_the_difference_of_the_scores(study, trade_off):
    kept = study.snapshot()
    study.trade_off = trade_off
    first, last = pegs(study)[0], pegs(study)[-1]
    for one, other in ((Choice(0, first), Choice(0, last)), (Choice(0, first), Choice(4, first))):
        found = comparison(study, one, other)
        assert found.parts.sum() == pytest.approx(found.lead, abs=1e-9)
        assert found.scores[0] == pytest.approx(study.here(one.place).score[one.option])
    study.restore(kept)


def test_a_choice_beside_itself_differs_in_nothing(study):
    found = comparison(study, Choice(2, pegs(study)[3]), Choice(2, pegs(study)[3]))
    assert not found.parts.any()
    assert found.lead == 0


def test_the_best_place_is_the_peg_that_scores_most(study):
    for option in range(len(study.options)):
        at_pegs = study.shown_scores(option)[study.ground.places.cells :]
        best = best_place(study, option)
        if np.isnan(at_pegs).all():
            continue
        assert study.shown_scores(option)[best] == pytest.approx(np.nanmax(at_pegs))


def test_the_best_choice_of_all_is_best_of_the_best(study):
    best = best_choice(study)
    cells = study.ground.places.cells
    top = max(
        np.nanmax(study.shown_scores(o)[cells:], initial=0) for o in range(len(study.options))
    )
    assert study.shown_scores(best.option)[best.place] == pytest.approx(top)


def test_what_is_ruled_out_says_the_rule_first(study):
    ruled = study.ruling.ruled_out
    place = next(p for p in pegs(study) if ruled[:, p].any())
    option = int(np.flatnonzero(ruled[:, place])[0])
    first = why_not(study, option, place)[0]
    assert "is ruled out at" in first
    assert study.ruling.reason(option, place) in first


def test_losses_stand_worst_first_and_are_no_more_than_the_whole(study):
    for place in pegs(study):
        for option in study.here(place).allowed:
            said = why_not(study, int(option), place)[0]
            if "loses" not in said:
                continue
            lost = int(re.search(r"loses (\d+) point", said)[1])
            listed = said.partition(": ")[2].partition(";")[0].partition(". ")[0]
            parts = [
                int(n) for n in re.findall(r"[a-z] (\d+)", re.sub(r"\d+ others? \d+", "", listed))
            ]
            assert parts == sorted(parts, reverse=True), said
            assert sum(parts) >= lost - len(study.factors) / 2, said


def test_outside_the_boundary_nothing_is_judged(study):
    outside = int(np.flatnonzero(~study.ground.places.inside)[0])
    assert "outside the boundary" in why_not(study, 0, outside)[0]


def test_one_point_is_a_point():
    assert [points(share) for share in (0.01, 0.02, 0.14)] == ["1 point", "2 points", "14 points"]
