"""Levels by sweeps are those that a queue of single cells gives, the lowest first."""

import heapq

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from model.land.levels import lowest_below, overflow_level

heights = st.one_of(st.integers(0, 40).map(lambda height: height / 10), st.just(np.nan))
grounds = arrays(float, st.tuples(st.integers(1, 9), st.integers(1, 9)), elements=heights)


def near(z, place, aslant=True):
    """Known cells beside a cell."""
    for up in (-1, 0, 1):
        for right in (-1, 0, 1):
            row, column = place[0] + up, place[1] + right
            inside = 0 <= row < z.shape[0] and 0 <= column < z.shape[1]
            if inside and (up or right) and (aslant or not (up and right)):
                yield row, column


def queued(z, fall, aslant):
    """Dijkstra (1959), Numerische Mathematik 1:269-271, over cells, from the edge inward."""
    level = np.full(z.shape, np.nan)
    known = [place for place in np.ndindex(z.shape) if np.isfinite(z[place])]
    whole = {p for p in known if sum(np.isfinite(z[n]) for n in near(z, p)) == 8}
    waiting = [(z[place], place) for place in known if place not in whole]
    heapq.heapify(waiting)
    while waiting:
        reached, place = heapq.heappop(waiting)
        if np.isfinite(level[place]):
            continue
        level[place] = reached
        for beside in near(z, place, aslant):
            if np.isfinite(z[beside]):
                heapq.heappush(waiting, (max(z[beside], reached + fall), beside))
    return level


@settings(max_examples=60)
@given(z=grounds, fall=st.sampled_from([0.0, 1e-5, 0.3]), aslant=st.booleans())
def test_levels_are_those_of_a_queue_of_cells(z, fall, aslant):
    np.testing.assert_array_equal(overflow_level(z, fall, aslant=aslant), queued(z, fall, aslant))


def test_a_spiral_of_banks_is_followed_to_its_end():
    # Five turns: what a few sweeps in four directions do not reach must be swept again.
    z = np.full((23, 23), 9.0)
    row, column, length = 0, 0, 22
    path = [(0, 0)]
    for turn, (up, right) in enumerate([(0, 1), (1, 0), (0, -1), (-1, 0)] * 5):
        for _ in range(length):
            row, column = row + up, column + right
            path.append((row, column))
        length -= 2 if turn and turn % 2 == 0 else 0
    for step, place in enumerate(path):
        z[place] = 1 + 0.01 * step
    assert overflow_level(z, 0.0, aslant=False)[path[-1]] == pytest.approx(z[path[-1]])
    assert lowest_below(z, z)[path[-1]] == 1.0
