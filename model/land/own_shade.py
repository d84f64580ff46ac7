"""What a new tree would take from a valued place, for the tree at every place it could stand."""

import numpy as np
from numpy.typing import NDArray

from model.land.covers import Crown, crown_cover
from model.land.depths import patch_shares
from model.land.sky import Sky


def sun_taken(
    crown: Crown,
    trees: NDArray[np.float64],
    eye: NDArray[np.float64],
    sky: Sky,
    worth: NDArray[np.float64],
) -> NDArray[np.float64]:
    """Sun that a crown takes from one eye, for its stem at each place (place,), unit of `worth`.

    Only where the eye lies from the stem matters, so that the crown stays where it is and the eye
    goes round it: one pass does for all the places.

    Parameters
    ----------
    crown : Crown
        At x = y = 0, its heights above the ground it stands on.
    trees : array (place, 3) [m]
        Where the stem could stand: x, y and height of the ground.
    eye : array (3,) [m]
        The valued place (a bed, a panel, a window): x, y and height.
    sky : Sky
        The patches, of the sun's path for example.
    worth : array (patch,)
        What the eye now has of each patch, times the share that the crown would keep back: the sum
        over months of (1 - transmission) * view * hours, say.

    """
    from_stem = np.asarray(eye, dtype=float) - np.asarray(trees, dtype=float)
    cover = crown_cover(crown, from_stem, sky.circle, sky.used)
    place, patch, share = patch_shares(sky, cover)
    taken = np.zeros(len(from_stem))
    np.add.at(taken, place, share * worth[patch])
    return taken
