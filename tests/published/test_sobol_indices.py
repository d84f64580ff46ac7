"""Sobol indices, as the model takes them from SciPy, against closed forms and SALib."""

import numpy as np
import pytest
from numpy.typing import NDArray
from SALib.analyze import sobol as analysis
from SALib.sample import sobol as sampling
from SALib.test_functions import Ishigami
from scipy import stats
from scipy.stats import multivariate_normal, norm

pytestmark = pytest.mark.published

DRAWS = 2**13
# Ishigami and Homma (1990), Proc. ISUMA '90, 398-403, a = 7 and b = 0.1, for x even in +-pi.
A, B = 7.0, 0.1

# Invented margin between two alternatives, linear in four factors.
MARGIN, WEIGHTS, SD = 0.04, np.array([0.4, 0.3, 0.2, 0.1]), np.array([0.10, 0.06, 0.03, 0.05])


def indices(func, dists) -> tuple[NDArray, NDArray]:
    found = stats.sobol_indices(func=func, n=DRAWS, dists=dists, rng=np.random.default_rng(1))
    return found.first_order, found.total_order


def test_ishigami_homma_1990() -> None:
    """Variances by part: Sobol' and Levitan (1999), Comput. Phys. Comm. 117, 52-61."""
    one, two = 0.5 * (1 + B * np.pi**4 / 5) ** 2, A**2 / 8
    both = 8 * B**2 * np.pi**8 / 225
    whole = one + two + both
    first, total = indices(
        lambda x: np.sin(x[0]) + A * np.sin(x[1]) ** 2 + B * x[2] ** 4 * np.sin(x[0]),
        [stats.uniform(-np.pi, 2 * np.pi)] * 3,
    )
    assert first == pytest.approx(np.array([one, two, 0]) / whole, abs=0.01)
    assert total == pytest.approx(np.array([one + both, two, both]) / whole, abs=0.01)


def test_ishigami_agrees_with_salib() -> None:
    problem = {"num_vars": 3, "names": ["x1", "x2", "x3"], "bounds": [[-np.pi, np.pi]] * 3}
    theirs = analysis.analyze(problem, Ishigami.evaluate(sampling.sample(problem, DRAWS, seed=1)))
    first, total = indices(lambda x: Ishigami.evaluate(x.T), [stats.uniform(-np.pi, 2 * np.pi)] * 3)
    assert first == pytest.approx(theirs["S1"], abs=0.02)
    assert total == pytest.approx(theirs["ST"], abs=0.02)


def test_a_linear_margin_has_the_shares_of_its_variance() -> None:
    """Saltelli et al. (2008), Global Sensitivity Analysis: The Primer, section 1.2.5."""
    parts = (WEIGHTS * SD) ** 2
    dists = [stats.norm(scale=sd) for sd in SD]
    first, total = indices(lambda x: MARGIN + WEIGHTS @ x, dists)
    assert first == pytest.approx(parts / parts.sum(), abs=0.01)
    assert total == pytest.approx(parts / parts.sum(), abs=0.01)


def test_whether_the_winner_stays_has_the_shares_of_two_normal_margins() -> None:
    """First order: two margins that share one factor are a bivariate normal pair.

    Var(P(D > 0 | x_j)) = P(D > 0, D' > 0) - P(D > 0)^2, with D and D' alike in x_j only, so that
    their correlation is x_j's share of the variance. In the total, all but x_j are shared.
    """
    share = (WEIGHTS * SD) ** 2 / ((WEIGHTS * SD) ** 2).sum()
    z = MARGIN / np.sqrt(((WEIGHTS * SD) ** 2).sum())
    stays = norm.cdf(z)

    def both(correlation: float) -> float:
        pair = multivariate_normal(cov=[[1, correlation], [correlation, 1]])
        return float(pair.cdf([z, z]))

    whole = stays * (1 - stays)
    first, total = indices(
        lambda x: (MARGIN + WEIGHTS @ x > 0).astype(float), [stats.norm(scale=sd) for sd in SD]
    )
    assert first == pytest.approx([(both(s) - stays**2) / whole for s in share], abs=0.02)
    assert total == pytest.approx([(stays - both(1 - s)) / whole for s in share], abs=0.02)
