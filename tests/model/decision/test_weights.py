"""Promises of the weights."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.decision import weights

shares = st.floats(0, 1)
moves = st.lists(st.tuples(st.booleans(), st.integers(0, 5), shares), max_size=30)
FAMILIES = np.array([0, 1, 1, 2, 2, 2])


@given(moves)
def test_after_any_moves_weights_are_shares_of_one(moves: list) -> None:
    w = weights.equal(6)
    for whole_family, k, share in moves:
        if whole_family:
            w = weights.family_moved(w, FAMILIES, k % 3, share)
            assert weights.family_shares(w, FAMILIES)[k % 3] == pytest.approx(share)
        else:
            w = weights.moved(w, k, share)
            assert w[k] == pytest.approx(share)
        assert (w >= 0).all()
        assert w.sum() == pytest.approx(1, abs=1e-12)


def test_the_others_keep_their_proportions() -> None:
    assert weights.moved([0.5, 0.3, 0.2], 0, 0.8) == pytest.approx([0.8, 0.12, 0.08])


def test_a_family_keeps_its_proportions_inside_and_outside() -> None:
    w = weights.family_moved([0.1, 0.2, 0.3, 0.4], [0, 0, 1, 1], 0, 0.6)
    assert w == pytest.approx([0.2, 0.4, 0.4 * 3 / 7, 0.4 * 4 / 7])


def test_others_without_any_weight_share_the_rest_equally() -> None:
    assert weights.moved([1.0, 0.0, 0.0], 0, 0.5) == pytest.approx([0.5, 0.25, 0.25])


def test_a_family_without_any_weight_shares_what_it_is_given_equally() -> None:
    w = weights.family_moved([0.0, 0.0, 1.0], [0, 0, 1], 0, 0.5)
    assert w == pytest.approx([0.25, 0.25, 0.5])


def test_the_only_factor_has_nothing_to_trade_with() -> None:
    assert weights.moved([1.0], 0, 0.3).tolist() == [1.0]


def test_sliders_all_at_zero_mean_equal_weights() -> None:
    assert weights.normalised([0, 0]).tolist() == [0.5, 0.5]


@given(st.lists(st.floats(0.01, 100), min_size=2, max_size=6), st.floats(0.1, 10))
def test_only_proportions_count(w: list, scale: float) -> None:
    np.testing.assert_allclose(weights.normalised(w), weights.normalised(np.multiply(w, scale)))


@pytest.mark.parametrize("wrong", [[-0.1, 1.1], [np.nan, 1.0], [np.inf, 1.0]])
def test_what_is_no_weight_is_refused(wrong: list) -> None:
    with pytest.raises(ValueError, match="expected numbers of 0 or more"):
        weights.normalised(wrong)


@pytest.mark.parametrize("wrong", [-0.01, 1.01, np.nan])
def test_what_is_no_share_is_refused(wrong: float) -> None:
    with pytest.raises(ValueError, match="expected 0 to 1"):
        weights.moved([0.5, 0.5], 0, wrong)


def test_a_factor_that_was_not_judged_before_keeps_the_weight_it_begins_with() -> None:
    """Own shares 0.1, 0.3, 0.6, the last unknown before: the first two share 0.4 as chosen."""
    after = weights.carried([0.75, 0.25, 0.0], [True, True, False], [0.1, 0.3, 0.6])
    assert after == pytest.approx([0.3, 0.1, 0.6])
    assert weights.carried([3, 1], [True, True], [0.5, 0.5]) == pytest.approx([0.75, 0.25])
    assert weights.carried([0, 0], [False, False], [0.2, 0.8]) == pytest.approx([0.2, 0.8])
