"""The same question put to CP-SAT, pair by pair and in its own words: an independent oracle.

Perron and Furnon, OR-Tools CP-SAT: constraint programming with lazy clauses, no linear rows of
ours. Scores are rounded to 1e-6, which it needs.
"""

from itertools import combinations
from math import hypot

import numpy as np
from ortools.sat.python import cp_model

from model.planting.solver.programme import Programme

SCALE = 1_000_000


def best_total(g: Programme, seconds: float = 60) -> float | None:
    """The greatest total score, None where the order cannot be met; fails when time runs out."""
    m = cp_model.CpModel()
    x = {(int(p), int(o)): m.new_bool_var("") for p, o in np.argwhere(g.allowed)}
    _wishes(m, g, x)
    _spacing(m, g, x)
    _counted(m, g, x)
    _pollen(m, g, x)
    for tree in g.fixed:
        m.add(x[tree] == 1)
    m.maximize(sum(round(SCALE * float(g.scores[t])) * v for t, v in x.items()))
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.num_workers = 2
    status = solver.solve(m)
    if status == cp_model.INFEASIBLE:
        return None
    assert status == cp_model.OPTIMAL, solver.status_name(status)
    return solver.objective_value / SCALE


def _wishes(m, g, x):
    meets = {}
    for (p, o), v in x.items():
        for w in np.flatnonzero(g.wishes[:, o]).tolist():
            meets[p, o, w] = m.new_bool_var("")
        m.add(sum(b for (q, a, _), b in meets.items() if (q, a) == (p, o)) == v)
    for w, count in enumerate(g.counts):
        m.add(sum(b for (*_, k), b in meets.items() if k == w) == int(count))


def _spacing(m, g, x):
    for (p, a), (q, b) in combinations(x, 2):
        room = hypot(g.x[p] - g.x[q], g.y[p] - g.y[q])
        if p == q or room < g.radius[p, a] + g.radius[q, b] + g.gap:
            m.add_bool_or(~x[p, a], ~x[q, b])


def _counted(m, g, x):
    if g.budget is not None:
        cents = sum(round(100 * float(g.prices[o])) * v for (_, o), v in x.items())
        m.add(cents <= int(100 * g.budget))
    if g.seasons is not None:
        for options, (low, high) in zip(g.seasons, g.season_counts, strict=True):
            m.add_linear_constraint(
                sum(v for (_, o), v in x.items() if options[o]), int(low), int(high)
            )
    if g.at_most is not None:
        for k, limit in enumerate(g.at_most):
            m.add(sum(v for (_, o), v in x.items() if o == k) <= int(limit))


def _pollen(m, g, x):
    if g.needs is None:
        return
    near = np.hypot(g.x[:, None] - g.x, g.y[:, None] - g.y) <= g.bee_range
    flowers = {}
    for p in range(len(g.x)):
        for c in np.unique(g.clones).tolist():
            around = [v for (q, b), v in x.items() if near[p, q] and q != p and g.clones[b] == c]
            flowers[p, c] = m.new_bool_var("")
            m.add_max_equality(flowers[p, c], [*around, m.new_constant(0)])
    first = {int(c): int(np.flatnonzero(g.clones == c)[0]) for c in np.unique(g.clones)}
    for (p, a), v in x.items():
        lack = float(g.needs[a]) - (0.0 if g.served is None else float(g.served[p, a]))
        if g.needs[a] > 0 and lack > 0:
            worth = {c: float(g.partners[a, o]) for c, o in first.items() if c != g.clones[a]}
            had = sum(round(1000 * w) * flowers[p, c] for c, w in worth.items())
            m.add(had >= round(1000 * lack)).only_enforce_if(v)
