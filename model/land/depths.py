"""Optical depth of the patches that places see: what things hide, added up or taken out."""

import numpy as np
from numpy.typing import NDArray

from model.land.covers import Cover
from model.land.sky import Sky, runs

DEEPEST = 12.0  # a beam weakened e^12 times is gone


def add(
    depth: NDArray[np.float32], sky: Sky, cover: Cover, transmission: float, sign: int = 1
) -> None:
    """Add a thing to the depths of the patches (place, patch) in place; sign -1 takes it out.

    Only the patches that the cover touches are read or written. `transmission` 0 to 1; exp(-depth)
    is the share of the beam that comes through.
    """
    place, patch, share = patch_shares(sky, cover)
    through = np.maximum(1 - share * (1 - transmission), np.exp(-DEEPEST))
    index = place * depth.shape[1] + patch
    depth.reshape(-1)[index] -= (sign * np.log(through)).astype(np.float32)


def patch_shares(
    sky: Sky, cover: Cover
) -> tuple[NDArray[np.intp], NDArray[np.intp], NDArray[np.float64]]:
    """Place, patch and share of the patch's height that a cover hides, (touch,) each.

    No pair of place and patch comes twice.
    """
    low, high = cover.low / sky.row_height, cover.high / sky.row_height
    first = np.maximum(np.floor(low).astype(np.intp), sky.first_row[cover.column])
    end = np.minimum(np.ceil(high).astype(np.intp), sky.end_row[cover.column])
    span, step = runs(np.maximum(end - first, 0))
    row = first[span] + step
    share = np.minimum(high[span], row + 1) - np.maximum(low[span], row)
    return cover.place[span], sky.start[cover.column][span] + row, share
