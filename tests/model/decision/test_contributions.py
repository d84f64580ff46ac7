"""Promises of the contributions shown beside a score."""

import numpy as np
from hypothesis import given

from model.decision.contributions import contributions, difference
from model.decision.power_mean import power_mean

from .cases import Decision, decisions, exponents


@given(decisions(), exponents)
def test_contributions_add_up_to_the_score(d: Decision, p: float) -> None:
    np.testing.assert_allclose(
        contributions(d.v, d.w, p).sum(axis=0), power_mean(d.v, d.w, p), atol=1e-9
    )


@given(decisions(), exponents)
def test_differences_add_up_to_the_lead(d: Decision, p: float) -> None:
    score = power_mean(d.v, d.w, p)
    lead = difference(d.v[:, 0], d.v[:, 1], d.w, p)
    np.testing.assert_allclose(lead.sum(), score[0] - score[1], atol=1e-9)


@given(decisions(), exponents)
def test_a_factor_speaks_for_the_one_that_is_better_at_it(d: Decision, p: float) -> None:
    a, b = d.v[:, 0], d.v[:, 1]
    assert (np.sign(difference(a, b, d.w, p)) == np.sign(a - b)).all()


@given(decisions())
def test_where_strength_makes_up_fully_each_brings_weight_times_value(d: Decision) -> None:
    np.testing.assert_allclose(contributions(d.v, d.w, 1), d.w[:, None] * d.v, atol=1e-12)


@given(decisions(), exponents)
def test_no_factor_brings_more_than_its_weight(d: Decision, p: float) -> None:
    assert (contributions(d.v, d.w, p) <= d.w[:, None] + 1e-12).all()


@given(exponents)
def test_perfection_brings_every_weight_in_full(p: float) -> None:
    w = np.array([0.5, 0.3, 0.2])
    assert contributions(np.ones(3), w, p).tolist() == w.tolist()


@given(exponents)
def test_differences_that_cancel_are_still_shown(p: float) -> None:
    parts = difference([0.4, 0.8], [0.8, 0.4], [0.5, 0.5], p)
    assert parts[0] < 0 < parts[1]
    assert abs(parts.sum()) < 1e-12


def test_a_fatal_weakness_costs_more_than_its_weight() -> None:
    assert contributions([0.05, 1.0, 1.0], [0.2, 0.4, 0.4], -1)[0] < 0


def test_a_factor_without_weight_brings_nothing_even_if_unknown() -> None:
    assert contributions([0.5, np.nan], [1, 0], -1).tolist() == [0.5, 0]
