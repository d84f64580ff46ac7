"""Invented decisions for hypothesis to try."""

from typing import NamedTuple

import numpy as np
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays
from numpy.typing import NDArray

exponents = st.one_of(st.sampled_from([-10.0, -1.0, 0.0, 1.0]), st.floats(-10, 1))


class Decision(NamedTuple):
    """Desirabilities (factor, alternative) and weights (factor,)."""

    v: NDArray[np.float64]
    w: NDArray[np.float64]


@st.composite
def decisions(draw: st.DrawFn, factors: int = 5, alternatives: int = 6) -> Decision:
    """Up to so many factors and alternatives; coarse values, so that ties occur."""
    n = draw(st.integers(2, factors))
    m = draw(st.integers(2, alternatives))
    v = draw(arrays(float, (n, m), elements=st.integers(2, 100).map(lambda k: k / 100)))
    w = draw(arrays(float, n, elements=st.integers(1, 20).map(float)))
    return Decision(v, w / w.sum())
