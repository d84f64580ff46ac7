"""A whole order placed, against CP-SAT on the same order in the same run."""

from model.planting.solver.solver import solution
from tests.model.planting.cases import programme
from tests.model.planting.cp_sat import best_total

from .comparison import Comparison, times


def comparisons() -> list[Comparison]:
    """An order for 60 positions, with every rule."""
    g = programme(
        2,
        positions=60,
        options=10,
        counts=(3, 2, 2),
        width=32,
        depth=22,
        bee_range=15,
        budget_share=0.95,
    )
    taken = times({"ours": lambda: solution(g), "theirs": lambda: best_total(g)}, rounds=3)
    return [
        Comparison(
            "an order placed, 60 positions × 10 options × 7 trees",
            "OR-Tools CP-SAT with its model written pair by pair",
            taken["ours"],
            taken["theirs"],
            1.0,
        )
    ]
