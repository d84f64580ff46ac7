"""Beliefs after an observation, against textbooks and SciPy."""

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.stats import betabinom, norm

from model.decision.updating import beta_update, normal_update

pytestmark = pytest.mark.published


def test_age_of_ennerdale_granophyre_lee_2012() -> None:
    """Lee, Bayesian Statistics, section 2.2: 370 +- 20 and 421 +- 8 million years, from memory.

    He rounds the precision first and prints N(413, 7^2); the exact mean of the two weighted by
    their precisions, 1/400 and 1/64, is 12005/29.
    """
    after = normal_update(370, 20, 421, 8)
    assert after.mean == pytest.approx(12005 / 29)
    assert after.sd == pytest.approx((1600 / 29) ** 0.5)
    assert after.mean == pytest.approx(413, abs=1)
    assert after.sd == pytest.approx(7, abs=0.5)


def test_placenta_previa_gelman_2004() -> None:
    """Gelman et al. (2004), Bayesian Data Analysis, section 2.5, from memory.

    437 girls among 980 births, an even prior: posterior mean .446, standard deviation .016.
    """
    after = beta_update(0.5, 1 / 12**0.5, 437, 980)
    assert after.mean == pytest.approx(0.446, abs=5e-4)
    assert after.sd == pytest.approx(0.016, abs=5e-4)


def test_sun_hours_are_what_bayes_theorem_gives_by_quadrature() -> None:
    """Invented: a map says 5.5 +- 1.0 hours of sun, a season's watching 4.2 +- 0.5."""

    def weight(h: float) -> float:
        return float(norm.pdf(h, 5.5, 1.0) * norm.pdf(4.2, h, 0.5))

    parts = [quad(lambda h, k=k: h**k * weight(h), -5, 15, points=[4.46])[0] for k in range(3)]
    mean = parts[1] / parts[0]
    after = normal_update(5.5, 1.0, 4.2, 0.5)
    assert after.mean == pytest.approx(mean, abs=1e-6)
    assert after.sd == pytest.approx((parts[2] / parts[0] - mean**2) ** 0.5, abs=1e-6)
    # All that was expected of the watching is the integral that Bayes' theorem divides by.
    surprise = norm.ppf(
        quad(lambda h: norm.pdf(h, 5.5, 1.0) * norm.cdf(4.2, h, 0.5), -5, 15, points=[5.5])[0]
    )
    assert after.surprise == pytest.approx(surprise, abs=1e-6)


@pytest.mark.parametrize(
    ("a", "b", "hits", "trials"), [(2, 3, 4, 5), (0.5, 0.5, 0, 3), (8, 2, 1, 9)]
)
def test_surprise_of_a_count_is_that_of_the_beta_binomial(a, b, hits, trials) -> None:
    expected = a / (a + b)
    sd = np.sqrt(expected * (1 - expected) / (a + b + 1))
    after = beta_update(expected, sd, hits, trials)
    seen = betabinom(trials, a, b)
    assert after.surprise == pytest.approx((hits - seen.mean()) / seen.std())
    assert after.mean == pytest.approx((a + hits) / (a + b + trials))
