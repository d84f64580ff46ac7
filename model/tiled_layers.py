"""The land layers of a large holding, in tiles: on this machine's cores or on a Dask cluster.

Most fields of the ground depend on what is near, or on the relief alone, and come out of tiles as
they would untiled. Where cold air and water run, and where people walk, depends on all the land
between: those layers are reckoned on the whole, in larger cells where it has very many.
"""

from collections.abc import Callable, Iterator, Sequence
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, replace
from functools import partial
from importlib import import_module
from pathlib import Path
from typing import Any

import numpy as np
import shapely
from rasterio.io import DatasetWriter
from rasterio.windows import Window

from model.ground import Ground
from model.ground.places import extent_of
from model.ground.tiles import Tile, TileGround, Whole, whole_of
from model.layers import LAYERS, LandLayer, opened_layer
from model.survey.site import Site
from model.trees import Catalogue

MOST_WHOLE = 1_000_000  # cells at most when all of the land is reckoned at once
PATIENCE = "20s"  # for a cluster to answer
MISSING = (
    "tiles are reckoned with dask, which is not installed: install treestead[large], "
    "or leave out the tiles"
)

Reckon = Callable[[Sequence[Tile]], Sequence[dict[str, np.ndarray]]]


@dataclass(frozen=True)
class Written:
    """The files written, and the cell [m] in which the layers of the whole were reckoned."""

    paths: list[Path]
    cell: float


def write_tiled_layers(
    site: Site,
    catalogue: Catalogue,
    folder: Path,
    size: int = 512,
    cluster: str | None = None,
    layers: Sequence[LandLayer] = LAYERS,
) -> Written:
    """Write layers as `layers.write_layers` does, reckoned in tiles of `size` cells a side.

    `cluster` is the address of a Dask scheduler ("tcp://10.0.0.5:8786") whose workers have this
    software; without one the tiles are shared among this machine's cores. Raises ValueError where
    dask is not installed or no cluster answers.
    """
    if size < 1:
        raise ValueError(f"tiles: found {size} cells a side, expected 1 or more")
    coarse = Ground(replace(site, cell=whole_cell(site), spots=()), catalogue)
    whole = whole_of(site, catalogue, coarse.climate)
    names = tuple(layer.name for layer in layers if not layer.whole)
    of_whole = {layer.name: layer.values(coarse) for layer in layers if layer.whole}
    by_name = {layer.name: layer for layer in layers}
    folder.mkdir(parents=True, exist_ok=True)
    rasters: dict[str, Any] = {}
    with _reckoning(whole, names, cluster) as reckon, ExitStack() as files:
        for row in whole.tiles(size):
            band = _band(row, reckon(row), (coarse, of_whole), whole)
            for name, values in band.items():
                if name not in rasters:
                    raster = opened_layer(folder, by_name[name], site, whole.relief.shape)
                    rasters[name] = files.enter_context(raster)
                _write(rasters[name], values, row[0].rows)
        paths = [Path(rasters[name].name) for name in by_name if name in rasters]
    return Written(paths, coarse.site.cell)


def whole_cell(site: Site) -> float:
    """Edge of the cells in which the whole of a site is reckoned at once [m]."""
    (rows, columns), _, _ = extent_of(site)
    return site.cell * int(np.ceil(np.sqrt(rows * columns / MOST_WHOLE)))


def tile_layers(whole: Whole, names: Sequence[str], tile: Tile) -> dict[str, np.ndarray]:
    """Layers of one tile by name, (y, x) in single precision, NaN outside the site."""
    ground = TileGround(whole, tile)
    found = {layer.name: layer.values(ground) for layer in LAYERS if layer.name in names}
    return {
        name: ground.own(values).astype(np.float32)
        for name, values in found.items()
        if values is not None
    }


def _band(
    row: Sequence[Tile],
    found: Sequence[dict[str, np.ndarray]],
    of_whole: tuple[Ground, dict[str, np.ndarray | None]],
    whole: Whole,
) -> dict[str, np.ndarray]:
    """A row of tiles put side by side, and the layers of the whole read there (y, x)."""
    band = {name: np.hstack([tile[name] for tile in found]) for name in found[0]}
    coarse, known = of_whole
    x, y = np.meshgrid(whole.columns, whole.rows[slice(*row[0].rows)])
    inside = shapely.contains_xy(whole.site.boundary, x, y)
    cells = coarse.places.cell_of(x, y)
    for name, values in known.items():
        if values is not None:
            band[name] = np.where(inside, coarse.places.grid(values)[cells], np.nan)
    return band


def _write(raster: DatasetWriter, values: np.ndarray, rows: tuple[int, int]) -> None:
    """Write a band of rows, counted from the south, into a raster with north up."""
    window = Window(0, raster.height - rows[1], raster.width, rows[1] - rows[0])
    raster.write(values[::-1].astype(np.float32), 1, window=window)


@contextmanager
def _reckoning(whole: Whole, names: Sequence[str], cluster: str | None) -> Iterator[Reckon]:
    """What turns tiles into their layers, on this machine's cores or a cluster's."""
    if cluster is None:
        dask = _dask("dask")
        # Handed on as it is: the tiles share one copy of the whole.
        layers_of = dask.delayed(partial(tile_layers, whole, names), pure=False, traverse=False)
        yield lambda tiles: dask.compute(*map(layers_of, tiles), scheduler="threads")
        return
    with _client(cluster) as client:
        sent = client.scatter(whole, broadcast=True)
        yield lambda tiles: client.gather(
            [client.submit(tile_layers, sent, names, tile, pure=False) for tile in tiles]
        )


def _client(cluster: str) -> Any:
    """A connection to a cluster's scheduler."""
    try:
        return _dask("distributed").Client(cluster, timeout=PATIENCE, set_as_default=False)
    except OSError as error:
        raise ValueError(
            f"the cluster {cluster}: found no answer ({error}), "
            "expected the address of a running Dask scheduler"
        ) from error


def _dask(name: str) -> Any:
    """Dask or its part of that name, loaded only when tiles are asked for."""
    try:
        return import_module(name)
    except ModuleNotFoundError as error:
        raise ValueError(MISSING) from error
