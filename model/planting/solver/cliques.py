"""Spacing as cliques: sets of trees of which no two may stand together, so at most one is planted.

A row "at most one of this set" for a whole clique says as much as a row for each of its pairs, and
the linear relaxation says far more: Padberg (1973), On the facial structure of set packing
polyhedra, Mathematical Programming 5:199-215, theorem 2.1 (a maximal clique's row is a facet).
"""

import numpy as np

Array = np.ndarray


def conflicts(x: Array, y: Array, radius: Array, gap: float, place: Array) -> Array:
    """Which pairs of candidates cannot stand together (candidate, candidate) bool.

    x, y [m] and radius [m] by candidate, gap [m] between crowns; place (candidate,) int: two
    candidates of one place always conflict, crowns that just touch (to 1e-9 m) do not.
    """
    apart = np.hypot(x[:, None] - x, y[:, None] - y)
    clash = apart + 1e-9 < radius[:, None] + radius + gap
    clash |= place[:, None] == place
    np.fill_diagonal(clash, False)
    return clash


def clique_cover(clash: Array, order: Array) -> list[Array]:
    """Maximal cliques of a conflict graph that together hold every conflict, and so say it all.

    clash (candidate, candidate) bool; order: candidates, those to be taken first into a clique
    first. Each clique starts from a pair that no clique holds yet, takes in candidates that are
    tied to a member by such a pair as long as there are any, then any that fit.

    Whole numbers serve as sets of candidates: their bits are compared a machine word at a time.
    """
    order = np.asarray(order)
    ties = _bits(clash[np.ix_(order, order)])
    bare = list(ties)
    cliques = []
    for first, _ in enumerate(ties):
        while bare[first]:
            clique = _grown(first, ties, bare)
            members = _members(clique)
            for member in members:
                bare[member] &= ~clique
            cliques.append(np.sort(order[members]))
    return cliques


def _grown(first: int, ties: list[int], bare: list[int]) -> int:
    clique, fitting = 1 << first, ties[first]
    while fitting:
        wanted = fitting & bare[first] or fitting
        lowest = wanted & -wanted
        clique |= lowest
        fitting &= ties[lowest.bit_length() - 1]
    return clique


def _bits(rows: Array) -> list[int]:
    packed = np.packbits(rows, axis=1, bitorder="little")
    return [int.from_bytes(row.tobytes(), "little") for row in packed]


def _members(bits: int) -> list[int]:
    members = []
    while bits:
        lowest = bits & -bits
        members.append(lowest.bit_length() - 1)
        bits ^= lowest
    return members
