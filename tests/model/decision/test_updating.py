"""Promises of beliefs after an observation."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.decision.updating import beta_update, normal_update

figure = st.floats(-100, 100)
error = st.floats(0.01, 50)


@given(figure, error, figure, error)
def test_belief_lies_between_map_and_meter_and_is_surer_than_both(mean, sd, seen, seen_sd) -> None:
    after = normal_update(mean, sd, seen, seen_sd)
    assert min(mean, seen) - 1e-9 <= after.mean <= max(mean, seen) + 1e-9
    assert after.sd <= min(sd, seen_sd) + 1e-12


@given(figure, error, figure, error, figure, error)
def test_the_order_of_two_looks_does_not_matter(mean, sd, one, one_sd, two, two_sd) -> None:
    first = normal_update(mean, sd, one, one_sd)
    second = normal_update(mean, sd, two, two_sd)
    a = normal_update(first.mean, first.sd, two, two_sd)
    b = normal_update(second.mean, second.sd, one, one_sd)
    assert (a.mean, a.sd) == pytest.approx((b.mean, b.sd), abs=1e-6)


def test_arrays_are_updated_place_by_place() -> None:
    after = normal_update([1.0, 2.0], 1.0, [1.0, 4.0], [1.0, 1e9])
    assert after.mean == pytest.approx([1.0, 2.0])
    assert after.surprise == pytest.approx([0, 0], abs=1e-8)


@given(st.floats(0.05, 0.95), st.floats(0.05, 0.9), st.integers(0, 20), st.integers(0, 20))
def test_counts_in_two_goes_are_counts_at_once(mean, part, hits, misses) -> None:
    sd = part * np.sqrt(mean * (1 - mean))
    whole = beta_update(mean, sd, hits, hits + misses)
    half = beta_update(mean, sd, hits, hits)
    rest = beta_update(half.mean, half.sd, 0, misses)
    assert (rest.mean, rest.sd) == pytest.approx((whole.mean, whole.sd), rel=1e-6)
    assert 0 < whole.mean < 1


def test_no_trials_leave_the_belief_as_it_was() -> None:
    assert beta_update(0.3, 0.1, 0, 0) == pytest.approx((0.3, 0.1, 0.0))


@pytest.mark.parametrize(("mean", "sd"), [(0.5, 0.5), (0.0, 0.1), (0.5, 0.0), (1.2, 0.1)])
def test_a_share_that_no_beta_distribution_has_is_told(mean: float, sd: float) -> None:
    with pytest.raises(ValueError, match="belief in a share"):
        beta_update(mean, sd, 1, 2)
