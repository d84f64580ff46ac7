"""The lists show what the study says, and believe a browser no further than their rows go."""

import numpy as np
import pytest

from dashboard import theme
from dashboard.pages.here_rows import factor_rows, heads, merit_rows, worst_first
from dashboard.pages.ranked_rows import RankedRows


def plain(text):
    return text


@pytest.fixture
def rows(study):
    return merit_rows(study, study.here(), plain)


def test_bars_are_as_long_as_the_scores(study, rows):
    here = study.here()
    allowed = here.allowed.size
    assert [row.share for row in rows[:allowed]] == pytest.approx(here.score[here.allowed])
    assert all(row.share is None for row in rows[allowed:])


def test_the_leader_is_marked_by_more_than_colour(study, rows):
    assert rows[0].mark == theme.letter(study.here().order[0])
    assert rows[0].leads
    assert not rows[-1].leads


def test_columns_are_the_contributions_of_the_study(study, rows):
    here = study.here()
    for row, option in zip(rows, here.order, strict=True):
        expected = () if row.out else here.contributions[:, option]
        np.testing.assert_allclose(row.parts, expected)


def test_no_weight_is_wider_than_its_column(study, rows):
    shown = RankedRows(lambda _row: None, heads=heads(study))
    for weights in (study.weights, np.eye(len(study.factors))[0]):
        shown.set(rows, weights)
        assert max(shown.weights) <= shown.top


def test_what_is_ruled_out_stands_last_with_its_reason(study, rows):
    out = [row.out for row in rows]
    assert out == sorted(out)
    assert all(row.note for row in rows if row.out)
    assert not any(row.note for row in rows if not row.out)


def test_figures_of_an_option_begin_with_the_worst(study):
    here = study.here()
    shown = factor_rows(study, here, 0, plain)
    shares = [row.share for row in shown]
    assert shares == sorted(shares)
    assert shown[0].id == study.factors[int(here.desirabilities[:, study.option].argmin())].name


def test_unknown_figures_stand_last():
    assert worst_first(np.array([np.nan, 0.5, 0.2])).tolist() == [2, 1, 0]


@pytest.mark.parametrize(
    "message", [{"row": "99"}, {"row": ["0"]}, {"column": 400}, {"column": "1"}, {}]
)
def test_what_no_row_has_chooses_nothing(study, rows, message):
    asked = []
    shown = RankedRows(asked.append, asked.append, heads(study))
    shown.set(rows, study.weights)
    shown._handle_msg(message)
    assert asked == []


def test_a_tap_on_a_column_asks_for_row_and_factor(study, rows):
    asked = []
    shown = RankedRows(asked.append, asked.append, heads(study))
    shown.set(rows, study.weights)
    shown._handle_msg({"row": rows[1].id, "column": 3})
    assert asked == [rows[1].id, 3]
