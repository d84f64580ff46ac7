"""Placements against solvers that share nothing with ours: CP-SAT and networkx.

Source: the libraries themselves. CP-SAT takes the question pair by pair (tests/model/planting/
cp_sat.py); networkx's max_weight_clique (Warren and Hicks 2006) on the complement of the
conflicts is the best set of trees when spacing is all that is asked.
"""

from itertools import combinations
from math import hypot

import networkx as nx
import numpy as np
import pytest

from model.planting.solver.programme import Programme
from model.planting.solver.solver import solution
from tests.model.planting.cases import programme
from tests.model.planting.cp_sat import best_total

pytestmark = pytest.mark.published
ROUNDED = 1e-4  # scores rounded to 1e-6 there, raised by up to 1e-5 a tree here


@pytest.mark.parametrize("seed", range(6))
def test_an_order_with_every_rule_against_cp_sat(seed):
    g = programme(
        seed, positions=30, options=8, counts=(3, 2), width=24, depth=16, budget_share=0.9
    )
    found, best = solution(g), best_total(g)
    assert found.status == ("impossible" if best is None else "proven")
    if best is not None:
        assert found.total == pytest.approx(best, abs=ROUNDED)


def test_pollen_that_takes_three_partners_against_cp_sat():
    """Half-worth partners for trees that need one and a half: cultivars counted, not trees."""
    g = programme(2, positions=24, options=7, counts=(3, 3), width=30, depth=20, budget_share=1.5)
    g = Programme(
        **{
            **vars(g),
            "needs": np.full(7, 1.5),
            "partners": np.full((7, 7), 0.5),
            "served": np.zeros((24, 7)),
            "bee_range": 14.0,
        }
    )
    best = best_total(g)
    assert best is not None
    assert solution(g).total == pytest.approx(best, abs=ROUNDED)


@pytest.mark.parametrize("seed", range(4))
def test_the_best_trees_that_have_room_against_networkx(seed):
    r = np.random.default_rng(seed)
    positions, options = 14, 3
    x, y = r.uniform(0, 12, positions), r.uniform(0, 9, positions)
    radius = r.uniform(1, 2.5, (positions, options))
    scores = r.uniform(0.2, 1, (positions, options))
    graph = nx.Graph()
    weights = {pair: round(1e6 * float(scores[pair])) for pair in np.ndindex(scores.shape)}
    for pair, weight in weights.items():
        graph.add_node(pair, weight=weight)
    for (p, a), (q, b) in combinations(weights, 2):
        if p != q and hypot(x[p] - x[q], y[p] - y[q]) >= radius[p, a] + radius[q, b]:
            graph.add_edge((p, a), (q, b))
    _, heaviest = nx.max_weight_clique(graph)
    totals = []
    for count in range(1, positions):
        found = solution(
            Programme(scores, x, y, radius, np.ones((1, options), bool), np.array([count]))
        )
        if found.status == "impossible":
            break
        totals.append(found.total)
    assert max(totals) == pytest.approx(heaviest / 1e6, abs=ROUNDED)
