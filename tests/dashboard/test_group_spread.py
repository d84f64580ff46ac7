"""Promises of the plot and table of what the groups weigh and choose."""

import numpy as np
import pytest

from dashboard.pages.group_results import choices
from dashboard.plots import group_spread
from model.group.agreement import agreement
from model.group.ballot import NAMES, Ballot
from tests.model.demo import demo_study


def ballot(group: str, lift: str) -> Ballot:
    return Ballot(group, dict.fromkeys(NAMES, 1.0) | {lift: 30.0}, -1.0)


FOUND = agreement(demo_study(), [ballot("Ash", "sunlight"), ballot("Oak", "spacing")])
FAMILIES = [factor.group for factor in demo_study().factors]
LABELS = [family.capitalize() for family in demo_study().families]


def test_every_group_has_a_dot_in_every_row_and_the_common_weight_its_mark():
    drawn = group_spread.rows(FOUND, FAMILIES, LABELS)
    columns = group_spread.layers(drawn)
    assert len(columns["dots"]["x"]) == 2 * (len(LABELS) + len(FAMILIES))
    assert sum(row.common for row in drawn if row.family) == pytest.approx(1)
    totals = np.sum([row.shares for row in drawn if row.family], axis=0)
    assert totals == pytest.approx(np.ones(2))


def test_dots_and_marks_share_one_axis():
    drawn = group_spread.rows(FOUND, FAMILIES, LABELS)
    columns = group_spread.layers(drawn)
    ticks, at = columns["scale"]["text"], columns["scale"]["x"]
    end = float(ticks[-1].removesuffix(" %")) / 100
    expected = at[0] + (at[-1] - at[0]) * drawn[0].shares / end
    assert columns["dots"]["x"][:2] == pytest.approx(expected)


@pytest.mark.parametrize("count", [1, 3, 5])
def test_dots_that_would_cover_one_another_stand_apart(count):
    raised = group_spread.stacked(np.zeros(count))
    assert len(set(raised.tolist())) == count
    assert raised.sum() == pytest.approx(0)


def test_the_factors_parted_over_come_first_where_few_are_shown():
    drawn = group_spread.rows(FOUND, FAMILIES, LABELS, most=2)
    shown = {row.label for row in drawn if not row.family}
    assert shown == {"Sunlight", "Spacing"}


def test_the_table_counts_the_rest_where_few_rows_fit():
    said = choices(FOUND, most=0)
    count = int((FOUND.chosen > 0).sum())
    assert f"{count} more options" in said
