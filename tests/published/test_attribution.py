"""What each factor brings, against the general methods it is a closed form of."""

from itertools import permutations

import numpy as np
import pytest
from scipy.integrate import quad

from model.decision.contributions import difference
from model.decision.power_mean import box_cox, inverse_box_cox, power_mean

pytestmark = pytest.mark.published

HERE = np.array([0.9, 0.4, 0.5, 0.7])
BASE = np.full(4, 0.5)
W = np.array([0.4, 0.3, 0.2, 0.1])


@pytest.mark.parametrize("p", [1, 0.3, 0, -1, -4])
def test_shares_are_the_path_integral_aumann_shapley_1974(p: float) -> None:
    """Aumann and Shapley (1974), Values of Non-Atomic Games: the gradient summed along a path.

    The path is straight in Box-Cox space; here the gradient is taken by central differences.
    """
    start, end = box_cox(BASE, p), box_cox(HERE, p)

    def slope(t: float, j: int) -> float:
        step = 1e-6 * (np.arange(4) == j)
        u = start + t * (end - start)
        above, below = (inverse_box_cox(W @ (u + sign * step), p) for sign in (1, -1))
        return float(above - below) / 2e-6 * (end - start)[j]

    shares = [quad(slope, 0, 1, args=(j,), epsabs=1e-10)[0] for j in range(4)]
    assert difference(HERE, BASE, W, p) == pytest.approx(shares, abs=1e-8)


@pytest.mark.parametrize(("p", "tolerance"), [(1, 1e-12), (0, 0.003), (-1, 0.003)])
def test_shares_are_near_those_of_shapley_1953(p: float, tolerance: float) -> None:
    """Shapley (1953), A value for n-person games: the mean over all orders of switching.

    Equal where strength makes up fully, and close elsewhere: both sum to the same lead.
    """
    shares = np.zeros(4)
    for order in permutations(range(4)):
        v = BASE.copy()
        for j in order:
            before = power_mean(v, W, p)
            v[j] = HERE[j]
            shares[j] += (power_mean(v, W, p) - before) / 24
    ours = difference(HERE, BASE, W, p)
    assert ours == pytest.approx(shares, abs=tolerance)
    assert ours.sum() == pytest.approx(shares.sum(), abs=1e-12)
