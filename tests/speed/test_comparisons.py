"""The benchmark compares like with like: on a small size its answers are right."""

import numpy as np

from .__main__ import table
from .comparison import Comparison
from .decision import Case


def test_the_quick_ways_give_the_plain_answers() -> None:
    case = Case(factors=4, options=7, places=50)
    plain = case.product().reshape(7, 50)
    option, top = case.best()
    np.testing.assert_allclose(top, np.nanmax(plain, axis=0), rtol=1e-6)
    assert option.tolist() == np.nanargmax(plain, axis=0).tolist()
    assert case.leaders().option.tolist() == option.tolist()


def test_a_rebuilt_cube_is_the_cube_of_the_new_trade_off() -> None:
    case = Case(factors=3, options=4, places=5)
    allowed = ~np.isnan(case.bars)
    rebuilt = case.rebuilt(-2.0)[:, allowed]
    worths = case.worths[:, allowed].astype(float)
    np.testing.assert_allclose(rebuilt, (worths**-2 - 1) / -2, rtol=2e-5)


def test_the_table_shows_ratio_and_target() -> None:
    lines = [Comparison("scores", "product", 3.0, 2.0, 1.6), Comparison("cube", "product", 1, 2)]
    assert [row.split() for row in table(lines).splitlines()] == [
        ["what", "against", "ms", "ratio", "target"],
        ["scores", "product", "3.00", "1.50", "1.6"],
        ["cube", "product", "1.00", "0.50"],
    ]
