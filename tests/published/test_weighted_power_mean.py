"""Scores against published examples and an independent library."""

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.stats import pmean

from model.decision.desirability import Curve, desirability
from model.decision.power_mean import power_mean

pytestmark = pytest.mark.published

# Triantaphyllou (2000), Multi-Criteria Decision Making Methods: A Comparative Study, chapter 2, as
# retold in Wikipedia, "Weighted sum model" and "Weighted product model"; one column an alternative.
ALTERNATIVES = np.array([(25, 20, 15, 30), (10, 30, 20, 30), (30, 10, 30, 10)], float).T
WEIGHTS = np.array([0.20, 0.15, 0.40, 0.25])

# Derringer and Suich (1980), Journal of Quality Technology 12(4), 214-219, tyre tread: the limits
# are in course notes and a vendor's manual, the optimum and its desirabilities from memory.
TREAD = (
    (129.5, Curve((120, 170), (0, 1)), 0.189),
    (1300.0, Curve((1000, 1300), (0, 1)), 1.0),
    (465.7, Curve((400, 500, 600), (0, 1, 0)), 0.656),
    (68.0, Curve((60, 67.5, 75), (0, 1, 0)), 0.932),
)


def test_weighted_sum_triantaphyllou_2000() -> None:
    assert power_mean(ALTERNATIVES, WEIGHTS, 1) == pytest.approx([21.50, 22.00, 22.00])


def test_weighted_product_ratios_triantaphyllou_2000() -> None:
    first, second, third = power_mean(ALTERNATIVES, WEIGHTS, 0)
    assert first / second == pytest.approx(1.007, abs=0.0005)
    assert first / third == pytest.approx(1.067, abs=0.0005)
    assert second / third == pytest.approx(1.059, abs=0.0005)


def test_single_desirabilities_derringer_suich_1980() -> None:
    """To the rounding of the printed responses (0.05 in 50, 0.5 in 300, 0.05 in 100 and 7.5)."""
    for response, curve, printed in TREAD:
        assert desirability(response, curve) == pytest.approx(printed, abs=0.007)


def test_overall_desirability_derringer_suich_1980() -> None:
    """Printed 0.583; the rounded responses give 0.584237, also in the package spotdesirability."""
    single = np.array([desirability(response, curve) for response, curve, _ in TREAD])
    overall = power_mean(single, np.full(4, 0.25), 0)
    assert overall == pytest.approx(0.583, abs=0.002)
    assert overall == pytest.approx(0.58423684, abs=1e-7)


@pytest.mark.parametrize("p", [-10, -5, -1, -0.142426, 0, 0.5, 1])
def test_every_exponent_against_scipy(p: float) -> None:
    """SciPy's scipy.stats.pmean, which raises to powers instead of going through Box-Cox space."""
    rng = np.random.default_rng(7)
    v, w = rng.uniform(0.02, 1, (15, 40)), rng.uniform(0.1, 1, 15)
    theirs = pmean(v, p, weights=np.broadcast_to(w[:, None], v.shape))
    np.testing.assert_allclose(power_mean(v, w / w.sum(), p), theirs, rtol=1e-9)


def test_harmonic_mean_of_two_speeds() -> None:
    """Common practice, no source: out at 60, back at 20, on average 30."""
    assert power_mean(np.array([60.0, 20.0]), np.array([0.5, 0.5]), -1) == pytest.approx(30)


def test_mean_geometric_mean_over_the_unit_square() -> None:
    """Dujmovic's andness of the geometric mean rests on it, from memory: (n / (n + 1))**n = 4/9."""
    half = np.array([0.5, 0.5])

    def over_y(x: float) -> float:
        return quad(lambda y: float(power_mean(np.array([x, y]), half, 0)), 0, 1)[0]

    assert quad(over_y, 0, 1)[0] == pytest.approx(4 / 9, abs=1e-6)
