"""Shortest rounds: the closed walk from the house past several trees."""

from collections.abc import Sequence
from itertools import combinations

import numpy as np

EXACT = 12  # trees up to which the shortest round is certain


def shortest_round(times: np.ndarray, stops: Sequence[int]) -> tuple[float, tuple[int, ...]]:
    """Time of the shortest closed walk from 0 past all stops, and the stops in its order.

    Exact for up to 12 stops, else the nearest next stop mended by turning stretches round until
    none helps, which may come out somewhat longer than the shortest. Infinite where no way leads.

    Parameters
    ----------
    times : array (point, point) [s]
        Symmetric, point 0 the house; quickest ways, so that no detour is quicker.
    stops : sequence of int
        Points to pass, each once, without 0.

    References
    ----------
    Held & Karp (1962), J. Soc. Indust. Appl. Math. 10:196-210; Croes (1958), Oper. Res. 6:791-812.

    """
    if not stops:
        return 0.0, ()
    order = _exact(times, stops) if len(stops) <= EXACT else _mended(times, stops)
    return round_time(times, order), order


def round_time(times: np.ndarray, order: Sequence[int]) -> float:
    """Time of the closed walk from 0 past the stops in this order [s]."""
    way = np.array([0, *order, 0])
    return float(times[way[:-1], way[1:]].sum())


def _exact(times: np.ndarray, stops: Sequence[int]) -> tuple[int, ...]:
    """The shortest order: the quickest way past each set of stops that ends at each of them."""
    points = np.array(stops)
    count = points.size
    between = times[np.ix_(points, points)]
    quickest = np.full((1 << count, count), np.inf)
    prior = np.zeros((1 << count, count), dtype=int)
    quickest[1 << np.arange(count), np.arange(count)] = times[0, points]
    for passed in range(1, (1 << count) - 1):
        ways = quickest[passed][:, None] + between
        from_, way = ways.argmin(axis=0), ways.min(axis=0)
        for stop in range(count):
            if not passed >> stop & 1 and way[stop] < quickest[passed | 1 << stop, stop]:
                quickest[passed | 1 << stop, stop] = way[stop]
                prior[passed | 1 << stop, stop] = from_[stop]
    passed = (1 << count) - 1
    last = int((quickest[passed] + times[points, 0]).argmin())
    order = []
    for _ in range(count):
        order.append(int(points[last]))
        passed, last = passed & ~(1 << last), int(prior[passed, last])
    return tuple(order[::-1])


def _mended(times: np.ndarray, stops: Sequence[int]) -> tuple[int, ...]:
    """A good order: always the nearest next, then stretches turned round while that helps."""
    left, order = list(stops), [0]
    while left:
        nearest = min(left, key=lambda stop: times[order[-1], stop])
        left.remove(nearest)
        order.append(nearest)
    order = order[1:]
    shorter = True
    while shorter:
        shorter = False
        for first, last in combinations(range(len(order)), 2):
            turned = order[:first] + order[first : last + 1][::-1] + order[last + 1 :]
            if round_time(times, turned) < round_time(times, order) - 1e-9:
                order, shorter = turned, True
    return tuple(order)
