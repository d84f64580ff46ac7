"""Boxes cover the numbered cells, all of them, once, and nothing else."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import array_shapes, arrays

from dashboard.plots.hatching import boxes


@given(arrays(int, array_shapes(min_dims=2, max_dims=2, max_side=8), elements=st.integers(-1, 2)))
def test_boxes_paint_the_grid_again(numbers):
    painted = np.full(numbers.shape, -1)
    times = np.zeros(numbers.shape, int)
    for left, bottom, right, top, number in boxes(numbers):
        painted[bottom:top, left:right] = number
        times[bottom:top, left:right] += 1
    assert (painted == numbers).all()
    assert times.max(initial=0) <= 1


def test_a_block_is_one_box():
    numbers = np.full((5, 6), -1)
    numbers[1:4, 2:5] = 0
    assert boxes(numbers).tolist() == [[2, 1, 5, 4, 0]]
