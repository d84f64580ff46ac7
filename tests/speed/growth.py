"""How time and memory grow from 1,000 to 200,000 places and from 10 to 300 options.

Each size in a process of its own: python -m tests.speed.growth PLACES OPTIONS. A ratio above 1 says
that a stage grew by more than its work did.
"""

import json
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from itertools import pairwise

import numpy as np

from model.decision.acceptability import acceptability
from model.decision.simplex import weight_samples
from model.ground import Ground
from model.study import Study
from tests.model.small_site import CATALOGUE

from .comparison import Comparison
from .holding import holding
from .memory import peak

CELL = 2.0  # [m]
PLACES, FEW_OPTIONS = (1_000, 10_000, 50_000, 200_000), 10
OPTIONS, FEW_PLACES = (10, 100, 300), 4_000
MOST = 1.3  # that a step may grow by more than its work: caches fill up
RUNS = 2  # of each size; the least counts, since new memory may take the system three times as long
FIELDS = (
    "relief", "slope", "aspect", "steepness", "soils", "obstacles", "roots", "partners", "fungi",
    "standing", "views", "services", "animal_runs", "walk", "wind",
)  # fmt: skip


def stages(places: int, options: int) -> Iterator[tuple[str, Callable[[], object]]]:
    """What is timed, in order; each stage finds the one before it done."""
    land = holding(places**0.5 * CELL - 6, CELL)
    ground = Ground(land, CATALOGUE)
    several = CATALOGUE.options()
    chosen = [several[k % len(several)] for k in range(options)]
    yield "ground: what stands near, slope, wind, walks", lambda: _read(ground, *FIELDS)
    yield "ground: the year's sun", lambda: ground.sun
    yield (
        "ground: weather, cold air, water",
        lambda: _read(ground, "frost", "wet_months", "watering"),
    )
    study = Study(land, CATALOGUE, chosen, ground=ground)
    yield "measures of all factors", lambda: study.measures
    yield "desirabilities and rule-outs", lambda: (study.desirabilities, study.ruling)
    yield "Box-Cox space and scores", lambda: study.scores
    yield "a weight moved: scores and leaders", lambda: _moved(study)
    yield "order of merit at a place", lambda: study.here(study.place)
    yield "10,000 weightings ranked at a place", lambda: _ranked(study)


def _read(ground: Ground, *fields: str) -> None:
    for name in fields:
        getattr(ground, name)


def _moved(study: Study) -> None:
    study.move_weight(study.factors[0].name, 0.2)
    _ = study.leaders


def _ranked(study: Study) -> None:
    """How often each option takes each rank, whatever weighs."""
    worths = np.log(study.desirabilities[None, :, :, study.place])
    acceptability(worths, weight_samples(len(study.factors), 10_000))


def comparisons() -> list[Comparison]:
    """Every stage's worst step, by places and by options, and the memory's."""
    by_places = {n: _measured(n, FEW_OPTIONS) for n in PLACES}
    by_options = {n: _measured(FEW_PLACES, n) for n in OPTIONS}
    return [*_worst("places", by_places), *_worst("options", by_options)]


def _worst(what: str, by_size: dict[int, dict[str, float]]) -> Iterator[Comparison]:
    """For each stage the step in which it grew most beyond its work."""
    for stage in next(iter(by_size.values())):
        steps = [
            Comparison(
                f"{stage}, {few:,} to {many:,} {what}",
                "the same times the growth",
                by_size[many][stage],
                by_size[few][stage] * many / few,
                MOST,
            )
            for few, many in pairwise(by_size)
        ]
        yield max(steps, key=lambda step: step.ratio)


def _measured(places: int, options: int) -> dict[str, float]:
    """Least processor time of every stage [ms], and memory beyond the program's own [MB]."""
    runs = [_apart(places, options) for _ in range(RUNS)]
    return {stage: min(run[stage] for run in runs) for stage in runs[0]}


def _apart(places: int, options: int) -> dict[str, float]:
    """What one run took in a process of its own."""
    with tempfile.TemporaryDirectory() as empty:
        ended = subprocess.run(  # noqa: S603 - our own code in a process of its own
            [sys.executable, "-m", "tests.speed.growth", str(places), str(options)],
            env=os.environ | {"TREESTEAD_CACHE": empty},
            check=True,
            stdout=subprocess.PIPE,
            text=True,
        )
    return json.loads(ended.stdout.splitlines()[-1])


def _timed(places: int, options: int) -> dict[str, float]:
    taken, bare = {}, peak()
    for name, run in stages(places, options):
        start = time.process_time()
        run()
        taken[name] = 1000 * (time.process_time() - start)
    return taken | {"memory in all [MB]": peak() - bare}


if __name__ == "__main__":
    sys.stdout.write(json.dumps(_timed(*map(int, sys.argv[1:]))) + "\n")
