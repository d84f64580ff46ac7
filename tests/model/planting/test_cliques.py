"""Cliques say what the pairs say, no more and no less."""

import networkx as nx
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.planting.solver.cliques import clique_cover, conflicts


def drawn(seed, n):
    r = np.random.default_rng(seed)
    x, y, radius = r.uniform(0, 10, n), r.uniform(0, 10, n), r.uniform(0.5, 3, n)
    return conflicts(x, y, radius, 0.2, r.integers(0, max(n // 2, 1), n))


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 10_000), st.integers(1, 40))
def test_every_conflict_is_in_a_clique_and_every_clique_is_one(seed, n):
    clash = drawn(seed, n)
    covered = np.zeros_like(clash)
    for clique in clique_cover(clash, np.arange(n)):
        block = np.ix_(clique, clique)
        assert (clash[block] | np.eye(len(clique), dtype=bool)).all()
        covered[block] = True
    np.fill_diagonal(covered, False)
    assert (covered == clash).all()


@pytest.mark.parametrize("seed", range(6))
def test_cliques_are_among_networkx_s_maximal_ones(seed):
    """Oracle: networkx.find_cliques (Bron and Kerbosch 1973)."""
    clash = drawn(seed, 25)
    maximal = {tuple(sorted(c)) for c in nx.find_cliques(nx.from_numpy_array(clash))}
    order = np.random.default_rng(seed).permutation(25)
    assert {tuple(c.tolist()) for c in clique_cover(clash, order)} <= maximal


def test_crowns_that_just_touch_may_stand():
    at = np.array([0.0, 5.0])
    crowns = np.array([2.0, 3.0])
    assert not conflicts(at, np.zeros(2), crowns, 0.0, np.arange(2)).any()
    assert conflicts(at, np.zeros(2), crowns, 0.1, np.arange(2)).sum() == 2
