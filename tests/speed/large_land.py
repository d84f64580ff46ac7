"""Land layers of large land, in tiles against untiled: seconds, memory and how far they differ.

A thousand hectares of 1 m terrain: python -m tests.speed.large_land 1000 1 --layers slope,aspect
"""

import argparse
import json
import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import numpy as np
import rasterio

from model import layers
from model.ground import Ground
from model.tiled_layers import write_tiled_layers
from tests.model.small_site import CATALOGUE

from .holding import holding
from .memory import peak

PARAMETERS = argparse.ArgumentParser("python -m tests.speed.large_land")
PARAMETERS.add_argument("hectares", type=float)
PARAMETERS.add_argument("cell", type=float)
PARAMETERS.add_argument("--layers", default=",".join(layer.name for layer in layers.LAYERS))
PARAMETERS.add_argument("--tiles", type=int, default=512)
PARAMETERS.add_argument("--cluster")
PARAMETERS.add_argument("--only", choices=("tiled", "untiled"))
PARAMETERS.add_argument("--child", type=Path, help="write here, in this process")


def measured(hectares: float, cell: float, names: str, **given: object) -> dict[str, float]:
    """Wall and processor seconds and peak memory [MB] of one way, in a process of its own."""
    asked = [part for key, value in given.items() for part in (f"--{key}", str(value)) if value]
    command = [sys.executable, "-m", "tests.speed.large_land", str(hectares), str(cell)]
    with tempfile.TemporaryDirectory() as empty:
        ended = subprocess.run(  # noqa: S603 - our own code in a process of its own
            [*command, "--layers", names, *asked],
            env=os.environ | {"TREESTEAD_CACHE": empty},
            check=True,
            stdout=subprocess.PIPE,
            text=True,
        )
    return json.loads(ended.stdout.splitlines()[-1])


def apart(one: Path, other: Path) -> dict[str, float]:
    """Greatest difference of each layer between two folders, in the layer's unit."""
    found = {}
    for path in sorted(one.glob("*.tif")):
        with rasterio.open(path) as ours, rasterio.open(other / path.name) as theirs:
            if ours.shape != theirs.shape:
                sys.exit(f"{path.name} has {ours.shape} cells and {theirs.shape}")
            worst = 0.0
            for _, window in ours.block_windows(1):
                left, right = ours.read(1, window=window), theirs.read(1, window=window)
                if (np.isnan(left) != np.isnan(right)).any():
                    sys.exit(f"{path.name} is not known at the same cells")
                worst = max(worst, float(np.nanmax(np.abs(left - right), initial=0.0)))
            found[path.stem] = worst
    return found


def _run(given: argparse.Namespace) -> None:
    """Write the layers into the folder `child`, and say what it took as one line of JSON."""
    site = holding((1e4 * given.hectares) ** 0.5, given.cell)
    chosen = [layer for layer in layers.LAYERS if layer.name in given.layers.split(",")]
    start, busy = time.perf_counter(), time.process_time()
    if given.only == "tiled":
        write_tiled_layers(site, CATALOGUE, given.child, given.tiles, given.cluster, chosen)
    else:
        layers.write_layers(site, Ground(site, CATALOGUE), given.child, chosen)
    taken = time.perf_counter() - start, time.process_time() - busy, peak()
    sys.stdout.write(json.dumps(dict(zip(("wall", "processor", "memory"), taken, strict=True))))


def _compared(given: argparse.Namespace) -> None:
    with tempfile.TemporaryDirectory() as folder:
        ways = (given.only,) if given.only else ("tiled", "untiled")
        for way in ways:
            took = measured(
                given.hectares, given.cell, given.layers, only=way, tiles=given.tiles,
                cluster=given.cluster, child=Path(folder) / way,
            )  # fmt: skip
            said = ", ".join(f"{name} {value:,.0f}" for name, value in took.items())
            sys.stdout.write(f"{way}: {said}\n")
            sys.stdout.flush()
        if len(ways) == 2:
            for name, worst in apart(Path(folder) / "tiled", Path(folder) / "untiled").items():
                sys.stdout.write(f"{name}: {worst:.2g} apart at most\n")


if __name__ == "__main__":
    asked = PARAMETERS.parse_args()
    _run(asked) if asked.child else _compared(asked)
