"""Promises of the weighted power mean."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.decision.power_mean import box_cox, inverse_box_cox, power_mean

from .cases import Decision, decisions, exponents

ROUNDING = 1e-9


@given(decisions(), exponents, exponents)
def test_strength_makes_up_for_more_as_the_exponent_rises(d: Decision, p: float, q: float) -> None:
    low, high = sorted((p, q))
    assert (power_mean(d.v, d.w, low) <= power_mean(d.v, d.w, high) + ROUNDING).all()


@given(decisions(), exponents)
def test_a_mean_lies_between_the_weakest_and_the_strongest(d: Decision, p: float) -> None:
    mean = power_mean(d.v, d.w, p)
    assert (mean >= d.v.min(axis=0) - ROUNDING).all()
    assert (mean <= d.v.max(axis=0) + ROUNDING).all()


@given(decisions(), exponents, st.data())
def test_a_better_value_never_lowers_the_mean(d: Decision, p: float, data: st.DataObject) -> None:
    better = d.v.copy()
    better[data.draw(st.integers(0, len(d.w) - 1))] = 1
    assert (power_mean(better, d.w, p) >= power_mean(d.v, d.w, p) - ROUNDING).all()


@given(decisions(), exponents)
def test_box_cox_is_undone_by_its_inverse(d: Decision, p: float) -> None:
    np.testing.assert_allclose(inverse_box_cox(box_cox(d.v, p), p), d.v, rtol=1e-8)


@given(st.floats(-10, 1))
def test_perfection_is_zero_in_box_cox_space(p: float) -> None:
    assert box_cox(1.0, p) == 0


@pytest.mark.parametrize("p", [-1e-3, -1e-6, -1e-8, 1e-8, 1e-6])
def test_exponents_next_to_zero_lose_no_digits(p: float) -> None:
    v, w = np.array([0.2, 0.9]), np.array([0.5, 0.5])
    assert power_mean(v, w, p) == pytest.approx(power_mean(v, w, 0), abs=abs(p))


@pytest.mark.parametrize("p", [1.0, 0.5, 0.0, -0.7, -1.0, -10.0])
def test_single_precision_stays_single_and_close(p: float) -> None:
    v = np.linspace(0.02, 1, 99)
    single = box_cox(v.astype(np.float32), p)
    assert single.dtype == np.float32
    np.testing.assert_allclose(inverse_box_cox(single.astype(float), p), v, atol=2e-6)


def test_a_factor_without_weight_is_left_out_even_if_unknown_or_zero() -> None:
    v = np.array([[0.5, 0.5], [np.nan, 0.0]])
    for p in (1.0, 0.0, -2.0):
        assert power_mean(v, np.array([1.0, 0.0]), p) == pytest.approx([0.5, 0.5])


def test_a_value_of_zero_leaves_nothing_at_exponents_of_zero_and_below() -> None:
    for p in (0.0, -1.0, -3.0):
        assert power_mean(np.array([0.0, 0.9]), np.array([0.1, 0.9]), p) == 0


def test_the_axis_of_the_factors_may_be_chosen() -> None:
    v = np.array([[0.2, 0.4], [0.6, 0.8]])
    w = np.array([0.25, 0.75])
    assert power_mean(v, w, 1, axis=1) == pytest.approx([0.35, 0.75])
