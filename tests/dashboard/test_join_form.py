"""Promises of the ballot's form, of addresses and of patience, without a server."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dashboard.join import form
from dashboard.join.judge import Judge
from dashboard.join.pace import Pace
from dashboard.join.reach import base_of
from model.group.ballot import BallotFaults
from tests.model.demo import demo_study

JUDGE = Judge.at(demo_study(), demo_study().place)
WHOLE = ("place", "room", "ground", "people")


def test_patience_comes_back_with_time():
    now = [0.0]
    pace = Pace(2, 1, clock=lambda: now[0])
    assert [pace.allows("a") for _one in range(3)] == [True, True, False]
    assert pace.allows("b")
    now[0] = 1.5
    assert [pace.allows("a") for _one in range(2)] == [True, False]


heights = st.floats(0, 100).map(round)


@given(st.fixed_dictionaries(dict.fromkeys(WHOLE, heights)))
def test_the_form_comes_back_as_it_was_filled_in(filled):
    fields = {f"family-{family}": [str(height)] for family, height in filled.items()}
    if not any(filled.values()):
        with pytest.raises(BallotFaults, match="No factor has any weight"):
            form.ballot_of(JUDGE, fields, "x", 1)
        return
    ballot = form.ballot_of(JUDGE, fields, "x", 1)
    again = form.filled(JUDGE, ballot)
    assert again.families == pytest.approx(filled)
    assert again.factors == pytest.approx(form.blank(JUDGE, "x").factors, abs=0.2)


@pytest.mark.parametrize(
    "typed", ["", "http://", "ftp://host", "http://a b", "http://user@host", "host:port"]
)
def test_what_is_no_address_is_not_told_to_phones(typed):
    assert base_of(typed) is None
