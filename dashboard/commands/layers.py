"""The command `layers`: every land layer as a raster, whole or, of large land, in tiles."""

import argparse
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from model.ground import Ground
from model.layers import write_layers
from model.opening import open_study
from model.tiled_layers import write_tiled_layers

FINEST, COARSEST = 0.25, 50.0  # [m]
SIZE = 512  # cells


def add_layers(
    commands: "argparse._SubParsersAction[argparse.ArgumentParser]",
    run: Callable[[argparse.Namespace], int],
) -> None:
    """Add the command and its words."""
    layers = commands.add_parser("layers", help="write every land layer as a GeoTIFF")
    layers.add_argument("folder", type=Path)
    layers.add_argument("--out", type=Path, metavar="DIR", required=True)
    layers.add_argument(
        "--cell", type=_cell, metavar="METRES", help="edge of a cell, in place of grid_m"
    )
    layers.add_argument(
        "--tiles",
        type=int,
        metavar="CELLS",
        help="for large land: work in tiles of so many cells a side (512, say)",
    )
    layers.add_argument(
        "--cluster",
        metavar="ADDRESS",
        help="share the tiles among the workers of a Dask scheduler (tcp://host:8786)",
    )
    layers.set_defaults(command=run)


def written_layers(given: argparse.Namespace) -> tuple[list[Path], list[str]]:
    """The files written, and what else is to be said; ValueError in words for people."""
    study = open_study(given.folder)
    site = study.site if given.cell is None else replace(study.site, cell=given.cell)
    ground = study.ground if given.cell is None else Ground(site, study.catalogue)
    notes = list(ground.absent.values())
    if given.tiles is None and given.cluster is None:
        return write_layers(site, ground, given.out), notes
    size = SIZE if given.tiles is None else given.tiles
    tiled = write_tiled_layers(site, study.catalogue, given.out, size, given.cluster)
    if tiled.cell != site.cell:
        notes.append(
            f"cold air, water and walks were followed over all of the land at once, in cells of "
            f"{tiled.cell:g} m"
        )
    return tiled.paths, notes


def _cell(text: str) -> float:
    """Edge of a cell [m]; ArgumentTypeError beyond what a site may have."""
    try:
        cell = float(text)
    except ValueError:
        cell = 0.0
    if not FINEST <= cell <= COARSEST:
        raise argparse.ArgumentTypeError(
            f"found {text!r}, expected metres from {FINEST:g} to {COARSEST:g}"
        )
    return cell
