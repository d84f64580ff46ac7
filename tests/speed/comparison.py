"""What a benchmark reports: a time against another taken in the same run."""

from collections.abc import Callable
from dataclasses import dataclass
from statistics import median
from time import perf_counter


@dataclass(frozen=True)
class Comparison:
    """One line of the table: measured and yardstick in ms, target as a ratio (None: no target)."""

    name: str
    against: str
    measured: float
    yardstick: float
    target: float | None = None

    @property
    def ratio(self) -> float:
        """How many times the yardstick was needed."""
        return self.measured / self.yardstick


def times(work: dict[str, Callable[[], object]], rounds: int = 31) -> dict[str, float]:
    """Median time of each piece of work [ms].

    Taken in turns, so that what else the machine does falls on all of them alike.
    """
    taken: dict[str, list[float]] = {name: [] for name in work}
    for _ in range(rounds + 1):
        for name, run in work.items():
            start = perf_counter()
            run()
            taken[name].append(1000 * (perf_counter() - start))
    return {name: median(laps[1:]) for name, laps in taken.items()}
