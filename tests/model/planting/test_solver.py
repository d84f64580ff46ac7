"""The solver against an exhaustive search; source: none needed, the search is the definition."""

from dataclasses import replace

import numpy as np
import pytest

from model.planting.solver.impossible import impossible_because
from model.planting.solver.solver import least_changed, next_solutions, solution

from .cases import programme
from .exhaustive import all_sets, judged, right_sets, total

SEEDS = range(24)
TOLERANCE = 1e-4  # the tie-breaks' 1e-5 a tree


def trees(found):
    return tuple((p, o) for p, o, _ in found.chosen)


@pytest.mark.parametrize("seed", SEEDS)
def test_no_set_of_trees_is_better_than_the_one_found(seed):
    g = programme(seed)
    best = right_sets(g)
    found = solution(g)
    if not best:
        assert found.status == "impossible"
        assert found.chosen == ()
        return
    assert found.status == "proven"
    assert judged(g, trees(found)).right
    assert found.total == pytest.approx(total(g, best[0]), abs=TOLERANCE)
    assert found.total == pytest.approx(total(g, trees(found)), abs=1e-12)


def test_the_cases_hold_both_possible_and_impossible_orders():
    possible = [bool(right_sets(programme(seed))) for seed in SEEDS]
    assert 6 <= sum(possible) <= 20


@pytest.mark.parametrize("seed", SEEDS)
def test_every_tree_meets_a_wish_and_every_wish_has_its_trees(seed):
    g = programme(seed)
    found = solution(g)
    assert all(g.wishes[w, o] for _, o, w in found.chosen)
    if found.chosen:
        met = np.bincount([w for *_, w in found.chosen], minlength=len(g.counts))
        assert met.tolist() == g.counts.tolist()


@pytest.mark.parametrize("seed", SEEDS)
def test_what_is_to_be_given_up_is_the_least_there_is(seed):
    g = programme(seed)
    given_up = impossible_because(g)
    sizes = tuple(range(int(sum(g.counts)) + 1))
    judgements = (judged(g, t) for t in all_sets(g, sizes))
    least = min(j.given_up for j in judgements if j.stands)
    assert sum(1 if r.kind == "budget" else r.by for r in given_up) == least
    assert (given_up == ()) == (solution(g).status == "proven")


def test_an_order_is_met_once_what_was_named_is_given_up():
    g = programme(3, budget_share=0.6)
    (budget,) = [r for r in impossible_because(g) if r.kind == "budget"]
    rest = [r for r in impossible_because(g) if r.kind != "budget"]
    assert rest == []
    assert solution(replace(g, budget=g.budget + budget.by + 1e-6)).status == "proven"


def test_two_set_trees_that_touch_are_named():
    g = replace(programme(3), x=np.array([0.0, 0.5, 20, 40, 60]), y=np.zeros(5))
    g = replace(g, scores=np.full((5, 4), 0.5), fixed=((0, 0), (1, 0)), needs=np.zeros(4))
    assert "fixed" in {r.kind for r in impossible_because(g)}


@pytest.mark.parametrize("seed", SEEDS)
def test_near_equals_are_the_next_best_that_differ_enough(seed):
    g = programme(seed)
    best = right_sets(g)
    if not best:
        pytest.skip("an impossible order has no alternatives")
    found = solution(g)
    others = next_solutions(g, found, 3, within=0.2, differ_by=2)
    known = [set(trees(found))]
    for other in others:
        assert judged(g, trees(other)).right
        apart = [t for t in best if all(len(set(t) - k) >= 2 for k in known)]
        assert other.total == pytest.approx(total(g, apart[0]), abs=TOLERANCE)
        known.append(set(trees(other)))
    if len(others) < 3:
        left = [t for t in best if all(len(set(t) - k) >= 2 for k in known)]
        assert not left or total(g, left[0]) < 0.8 * found.total + TOLERANCE


@pytest.mark.parametrize("seed", SEEDS)
def test_when_a_place_is_lost_as_few_trees_move_as_can_be(seed):
    g = programme(seed)
    found = solution(g)
    if not found.chosen:
        pytest.skip("nothing was planted")
    before = trees(found)
    closed = replace(g, blocked=(before[0][0],))
    possible = right_sets(closed)
    moved = least_changed(closed, before)
    if not possible:
        assert moved.status == "impossible"
        return
    kept = [len(set(t) & set(before)) for t in possible]
    assert len(set(trees(moved)) & set(before)) == max(kept)
    best = max(total(g, t) for t, k in zip(possible, kept, strict=True) if k == max(kept))
    assert moved.total == pytest.approx(best, abs=TOLERANCE)


@pytest.mark.parametrize("seed", SEEDS)
def test_closing_a_place_never_helps_and_opening_it_never_hurts(seed):
    g = programme(seed, positions=8)
    found = solution(g)
    for p in range(3):
        fewer = solution(replace(g, blocked=(p,)))
        if fewer.chosen:
            assert fewer.total <= found.total + TOLERANCE


@pytest.mark.parametrize("seed", range(8))
def test_a_set_tree_stays(seed):
    g = programme(seed, positions=8)
    for position, option in np.argwhere(g.allowed)[:6].tolist():
        found = solution(replace(g, fixed=((position, option),)))
        assert not found.chosen or (position, option) in trees(found)


def test_the_same_order_is_always_answered_alike():
    g = programme(4, positions=20, options=8, counts=(3, 2), width=30, depth=20)
    first, second = solution(g), solution(g)
    assert replace(first, seconds=0) == replace(second, seconds=0)


def test_when_time_is_short_the_bound_is_still_above_the_best():
    g = programme(5, positions=20, options=8, counts=(3, 2), width=30, depth=20)
    hurried, best = solution(g, seconds=1e-3), solution(g)
    assert hurried.bound >= best.total
    assert hurried.status in {"time", "proven"}


@pytest.mark.parametrize("seed", range(6))
def test_an_answer_within_a_gap_says_how_far_off_it_may_be(seed):
    g = programme(seed, positions=20, options=8, counts=(3, 2), width=30, depth=20)
    rough, best = solution(g, gap=0.2), solution(g)
    if best.chosen:
        assert rough.total <= best.total + TOLERANCE
        assert rough.bound >= best.total
        assert rough.gap <= 0.2 + TOLERANCE


def test_equal_places_are_told_apart_the_same_way():
    g = programme(1, positions=12, width=200, depth=200)
    g = replace(g, scores=np.full(g.scores.shape, 0.5), needs=np.zeros(4))
    assert solution(g).chosen == solution(g).chosen
