"""Shelter behind belts, hedges, walls and buildings, for wind from each bearing.

A bearing names where the wind comes from, in degrees clockwise from north. Distances count in
heights of the barrier; density is the share of it that the eye cannot see through.
"""

import numpy as np
from numpy.typing import ArrayLike, NDArray

# Share of open wind left, at distances downwind of a belt [heights] by its density. Brandle &
# Finch (1991), How windbreaks work, University of Nebraska EC 91-1763: FROM MEMORY, not checked.
# Nearer than five heights the figure for five is held (the least wind lies about four heights
# behind); that no belt at all leaves all wind is ours.
DISTANCES = (5.0, 10.0, 15.0, 20.0, 25.0, 30.0)
DENSITIES = (0.0, 0.30, 0.50, 0.70, 1.0)
WIND_LEFT = np.array(
    [
        [1.00, 1.00, 1.00, 1.00, 1.00, 1.00],
        [0.50, 0.65, 0.80, 0.85, 0.95, 1.00],  # one row of broadleaved trees, 25 to 35 %
        [0.30, 0.50, 0.60, 0.75, 0.85, 0.95],  # one row of conifers, 40 to 60 %
        [0.25, 0.35, 0.65, 0.85, 0.90, 0.95],  # several rows of conifers, 60 to 80 %
        [0.25, 0.70, 0.90, 0.95, 1.00, 1.00],  # a solid fence
    ]
)
FARTHEST = 35.0  # [heights] where nothing is felt any more, model choice
WINDWARD = 5.0  # [heights] in front of a belt that still feel it; the same publication's text
# Density above which the air eddies behind a barrier: porosity under 35 %, MIL-HDBK-1011/2; and
# where the eddies are, as common practice, no source.
SOLID_FROM = 0.65
EDDY_DISTANCES, EDDIES = (0.0, 2.0, 6.0, 10.0), (0.5, 1.0, 1.0, 0.0)
GUSTS = 0.5  # share of the shelter that full eddies undo: model choice


def wind_behind(distance: ArrayLike, density: ArrayLike) -> NDArray[np.float64]:
    """Share of open wind left near a long barrier, broadcast shape [1].

    `distance` [heights of the barrier], downwind of it positive, in front of it negative;
    `density` [1], 0 to 1. Source: beside the table, above.

    >>> wind_behind([5, 10, 40, -6], density=0.5).tolist()
    [0.3, 0.5, 1.0, 1.0]
    """
    away, thick = np.broadcast_arrays(
        np.asarray(distance, dtype=float), np.clip(np.asarray(density, dtype=float), 0, 1)
    )
    at = np.clip(away, DISTANCES[0], FARTHEST)
    by_density = np.stack([np.interp(at, (*DISTANCES, FARTHEST), (*row, 1.0)) for row in WIND_LEFT])
    downwind = _between_densities(by_density, thick)
    # In front of it the wind slackens half as much as just behind.
    fading = np.clip(1 + away / WINDWARD, 0, 1)
    return np.where(away >= 0, downwind, 1 - (1 - downwind) / 2 * fading)


def eddies(distance: ArrayLike, density: ArrayLike) -> NDArray[np.float64]:
    """Strength of the eddies behind a barrier, broadcast shape [1], 0 to 1.

    Only close behind dense barriers. Arguments as in `wind_behind`. Source: model choice.

    >>> eddies([4, 4, 12], [1.0, 0.5, 1.0]).tolist()
    [1.0, 0.0, 0.0]
    """
    dense = np.clip((np.asarray(density, dtype=float) - SOLID_FROM) / (1 - SOLID_FROM), 0, 1)
    away = np.asarray(distance, dtype=float)
    return dense * np.where(away >= 0, np.interp(away, EDDY_DISTANCES, EDDIES), 0.0)


def felt_wind(distance: ArrayLike, density: ArrayLike) -> NDArray[np.float64]:
    """Share of open wind that a tree feels near a barrier, eddies included, broadcast shape [1].

    Eddies undo part of the shelter; they never make it worse than the open.
    """
    left = wind_behind(distance, density)
    return left + GUSTS * eddies(distance, density) * (1 - left)


def sheltered_wind(
    x: ArrayLike,
    y: ArrayLike,
    barriers: ArrayLike,
    height: ArrayLike,
    density: ArrayLike,
    bearings: ArrayLike,
) -> NDArray[np.float64]:
    """Share of open wind that places feel, for wind from each bearing, (bearing, place) [1].

    The wind is followed straight upwind and downwind to each barrier it meets; of several the one
    that shelters most counts, for belts behind one another do not add up.

    Parameters
    ----------
    x, y : arrays (place,) [m]
        East and north of the site's origin.
    barriers : array (barrier, 4) [m]
        Straight pieces as x, y of one end and x, y of the other.
    height : array (barrier,) or (place, barrier) [m]
        Of the barrier, above the ground of the place where the ground is not level.
    density : array (barrier,) [1]
        0 to 1, for the season in question.
    bearings : array (bearing,) [degrees]
        Where the wind comes from, clockwise from north.

    """
    pieces = np.asarray(barriers, dtype=float).reshape(-1, 4)
    places = np.stack([np.asarray(x, dtype=float), np.asarray(y, dtype=float)], axis=-1)
    tall = np.broadcast_to(np.asarray(height, dtype=float), (len(places), len(pieces)))
    thick = np.broadcast_to(np.asarray(density, dtype=float), len(pieces))
    upwind = np.radians(np.asarray(bearings, dtype=float))
    felt = np.ones((len(upwind), len(places)))
    for wind, bearing in zip(felt, upwind, strict=True):
        place, piece, distance = _met(places, pieces, bearing)
        reach = tall[place, piece]
        near = (distance < FARTHEST * reach) & (distance > -WINDWARD * reach)
        heights_away = distance[near] / reach[near]
        np.minimum.at(wind, place[near], felt_wind(heights_away, thick[piece[near]]))
    return felt


def _between_densities(
    by_density: NDArray[np.float64], density: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Values (density class, ...) read in a straight line between the classes (...)."""
    upper = np.clip(np.searchsorted(DENSITIES, density), 1, len(DENSITIES) - 1)
    steps = np.asarray(DENSITIES)
    share = (density - steps[upper - 1]) / (steps[upper] - steps[upper - 1])
    below = np.take_along_axis(by_density, upper[None] - 1, axis=0)[0]
    above = np.take_along_axis(by_density, upper[None], axis=0)[0]
    return below + share * (above - below)


def _met(
    places: NDArray[np.float64], pieces: NDArray[np.float64], bearing: float
) -> tuple[NDArray[np.int_], NDArray[np.int_], NDArray[np.float64]]:
    """Every place and piece on one line of wind, and the way upwind between them [m].

    Three arrays (meeting,): number of the place, of the piece, and the distance, negative where
    the piece lies downwind. `bearing` [rad]. Places are sorted across the wind, so that those a
    piece covers stand together.
    """
    towards = np.array([np.sin(bearing), np.cos(bearing)])
    across = np.array([np.cos(bearing), -np.sin(bearing)])
    one, other = pieces[:, :2], pieces[:, 2:]
    one_side, other_side = one @ across, other @ across
    side = places @ across
    order = np.argsort(side, kind="stable")
    first = np.searchsorted(side[order], np.minimum(one_side, other_side))
    last = np.searchsorted(side[order], np.maximum(one_side, other_side), "right")
    count = last - first
    piece = np.repeat(np.arange(len(pieces)), count)
    within = np.arange(count.sum()) - np.repeat(np.cumsum(count) - count, count)
    place = order[np.repeat(first, count) + within]
    width = other_side - one_side
    # A piece seen end on is met half-way along.
    halves = np.full(len(piece), 0.5)
    past = side[place] - one_side[piece]
    share = np.divide(past, width[piece], out=halves, where=width[piece] != 0)
    ahead = (1 - share) * (one @ towards)[piece] + share * (other @ towards)[piece]
    return place, piece, ahead - (places @ towards)[place]
