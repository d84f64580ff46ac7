"""Moving a young tree against what societies, extension services and papers say."""

from datetime import date

import numpy as np
import pytest

from model.planting.year_after.moving import (
    Chances,
    Terms,
    annuity,
    survival_needed,
    worth_of_moving,
    worth_of_staying,
)
from model.planting.year_after.transplanting import figure, next_window, survival, trunk, years_lost

pytestmark = pytest.mark.published


def test_the_dormant_season_in_the_north_is_late_october_to_mid_march_rhs():
    # Royal Horticultural Society, Trees and shrubs: moving plants: deciduous trees from late
    # October to mid-March.
    window = next_window(date(2027, 6, 1), 52.0)
    assert (window.first.month, window.first.day >= 20) == (10, True)
    assert (window.last.year, window.last.month) == (2028, 3)
    assert 10 <= window.last.day <= 20


def test_a_tree_in_place_for_a_year_or_two_moves_easily_and_one_beyond_five_seldom_lives():
    # Irish Examiner, moving fruit trees, and The Guardian (2012): one or two years in position,
    # relatively easy. Royal Horticultural Society and Irish Examiner: beyond five years much less
    # likely to survive. In words there; what easy and much less mean in figures is from memory.
    assert survival(2, "apple") > 0.9
    assert survival(6, "apple") < 0.6 < 0.7 * survival(1, "apple")


def test_recovery_takes_a_year_for_each_inch_of_trunk_ifas():
    # University of Florida IFAS, Establishment period for trees: one year or more for each inch.
    for age, rate in ((1, 0.45), (3, 0.3), (5, 0.16)):
        assert years_lost(age, rate) == pytest.approx(trunk(age, rate) / 2.54)


def test_nine_tenths_of_the_roots_stay_behind_gilman():
    # Gilman (1988), abstract: 91 to 95 % of the roots lie outside the harvestable ball.
    assert (figure("roots", "lost_low"), figure("roots", "lost_high")) == (91, 95)


EXAMPLE = Terms(years=15, rate=0.03, cost=10)
TAKEN = Chances(survival=0.85, lost=2)


def test_stay_or_move_by_exact_arithmetic():
    # Source: the sums themselves, written out: sum of 6 / 1.03^t for t = 1 to 15, and
    # 0.85 times the sum of 10 / 1.03^t for t = 3 to 15, less 10.
    assert worth_of_staying(6, EXAMPLE) == pytest.approx(71.6276, abs=5e-5)
    assert worth_of_moving(10, TAKEN, EXAMPLE) == pytest.approx(75.2080, abs=5e-5)
    assert survival_needed(6, 10, TAKEN, EXAMPLE) == pytest.approx(0.814284, abs=5e-7)


def test_the_worth_of_1_a_year_is_that_of_an_annuity():
    # The closed form (1 - (1 + r)^-n) / r, any text on interest.
    for years, rate in ((1, 0.03), (15, 0.03), (40, 0.05)):
        assert annuity(years, rate) == pytest.approx((1 - (1 + rate) ** -years) / rate)


def test_parts_of_a_year_lie_between_whole_years():
    between = np.array([annuity(years, 0.03) for years in (2.0, 2.5, 3.0)])
    assert np.diff(between) == pytest.approx([between[2:].sum() / 2 - between[0] / 2] * 2)
