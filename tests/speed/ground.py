"""The demo's whole ground from cold, in a process of its own, against 5 s and 1 GB."""

import json
import os
import subprocess
import sys
import tempfile

from .comparison import Comparison

SECONDS, GIGABYTE = 5.0, 1024.0  # as the ground of a demo may take at most
COLD = """
import json, sys, time
from model.opening import open_study
from tests.speed.memory import peak
study = open_study(sys.argv[1])
start = time.perf_counter()
for factor in study.factors:
    study.measure(factor.name)
taken = time.perf_counter() - start
print(json.dumps([taken, peak(), study.ground.places.x.size]))
"""


def comparisons() -> list[Comparison]:
    """Lines for the ground of both demos, nothing kept from before, then all of it kept."""
    lines = []
    for name in ("sorrelhay", "sallowbend"):
        with tempfile.TemporaryDirectory() as empty:
            cold, peak, places = _measured(name, empty)
            kept, _, _ = _measured(name, empty)
        what = f"ground and factors of {name}, {places:,} places"
        lines += [
            Comparison(f"{what}, cold", "5 s", 1000 * cold, 1000 * SECONDS, 1.0),
            Comparison(f"{what}, memory [MB]", "1 GB", peak, GIGABYTE, 1.0),
            Comparison(f"{what}, kept on disk", "the same, cold", 1000 * kept, 1000 * cold),
        ]
    return lines


def _measured(name: str, cache: str) -> tuple[float, float, int]:
    """Seconds, most memory [MB] and places of one demo in a fresh process."""
    ended = subprocess.run(  # noqa: S603 - our own code in a process of its own
        [sys.executable, "-c", COLD, f"demo_data/{name}"],
        env=os.environ | {"TREESTEAD_CACHE": cache},
        check=True,
        capture_output=True,
        text=True,
    )
    taken, peak, places = json.loads(ended.stdout)
    return taken, peak, places
