"""The worth of measuring against the table of the unit normal loss, and by simulation."""

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.stats import norm

from model.decision.information import (
    known_sd,
    margin_worth,
    unit_normal_loss,
    worth_of_measuring,
)

pytestmark = pytest.mark.published

# Invented margin between two alternatives, linear in four factors.
MARGIN, WEIGHTS, SD = 0.04, np.array([0.4, 0.3, 0.2, 0.1]), np.array([0.10, 0.06, 0.03, 0.05])
WHOLE = float(np.sqrt(((WEIGHTS * SD) ** 2).sum()))


@pytest.mark.parametrize(
    ("z", "printed"),
    [(0, ".3989"), (0.5, ".1978"), (1, ".08332"), (1.5, ".02931"), (2, ".008491")],
)
def test_unit_normal_loss_raiffa_schlaifer_1961_table_2(z: float, printed: str) -> None:
    """Raiffa and Schlaifer (1961), Applied Statistical Decision Theory, table II, from memory."""
    digits = len(printed) - 1
    assert unit_normal_loss(z) == pytest.approx(float(printed), abs=0.51 * 10**-digits)


@pytest.mark.parametrize("sd", [WHOLE, *(WEIGHTS * SD)])
def test_worth_of_knowing_the_margin_is_the_integral_of_what_it_spares(sd: float) -> None:
    """What is spared: the mean of max(0, -D), by quadrature; that it changes: P(D < 0)."""
    spared, _ = quad(
        lambda d: -d * norm.pdf(d, MARGIN, sd), MARGIN - 12 * sd - 1e-9, 0, points=[-sd, 0]
    )
    found = margin_worth(MARGIN, sd)
    assert found.gain == pytest.approx(max(spared, 0), abs=1e-8)
    assert found.change == pytest.approx(norm.cdf(0, MARGIN, sd))


def test_a_measured_factor_changes_the_choice_as_often_as_by_simulation() -> None:
    """Two million margins and readings; a choice by the mean of what a reading leaves."""
    rng = np.random.default_rng(11)
    x = SD[0] * rng.standard_normal(2_000_000)
    reading = x + SD[0] * rng.standard_normal(x.size)
    # Lindley (1965): with errors as large as the prior's, half the reading is believed.
    for moved, worth in (
        (x, margin_worth(MARGIN, WEIGHTS[0] * known_sd(SD[0], 0))),
        (reading / 2, margin_worth(MARGIN, WEIGHTS[0] * known_sd(SD[0], SD[0]))),
    ):
        margin = MARGIN + WEIGHTS[0] * moved
        assert worth.gain == pytest.approx(np.maximum(-margin, 0).mean(), rel=0.01)
        assert worth.change == pytest.approx((margin < 0).mean(), abs=0.001)


@pytest.mark.parametrize("instrument", [0.0, 1.0])
@pytest.mark.parametrize("factor", range(4))
def test_regression_finds_the_closed_form_for_two_strong_oakley_brennan_2014(
    factor: int, instrument: float
) -> None:
    x = SD * np.random.default_rng(7).standard_normal((100_000, 4))
    utilities = np.stack([np.full(len(x), 0.6), 0.6 - MARGIN - x @ WEIGHTS], axis=1)
    error = instrument * SD[factor]
    found = worth_of_measuring(utilities, x[:, factor], error)
    exact = margin_worth(MARGIN, WEIGHTS[factor] * known_sd(SD[factor], error))
    assert found.gain == pytest.approx(exact.gain, abs=1e-4)
    assert found.change == pytest.approx(exact.change, abs=0.01)


def test_regression_finds_the_mean_of_the_best_of_many() -> None:
    """Utilities a x plus noise, slopes -1, 0 and 2: worth E max(-x, 0, 2x) = 3 phi(0) / 1."""
    rng = np.random.default_rng(5)
    x = rng.standard_normal(100_000)
    utilities = np.outer(x, [-1, 0, 2]) + rng.standard_normal((x.size, 3))
    found = worth_of_measuring(utilities, x)
    # Today's choice has mean 0 up to the draws' own error; E max(-x, 0) = phi(0), E max(2x, 0) = 2.
    assert found.gain == pytest.approx(3 * norm.pdf(0), rel=0.02)
