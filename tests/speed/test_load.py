"""The workshop in small: every answer belongs to its slider, every ballot is kept.

How fast it goes is for python -m tests.speed.load to say.
"""

from pathlib import Path

import pandas as pd
import pytest

from dashboard.join.subject import Subject
from dashboard.votes.ballots import Ballots
from model.opening import open_study
from tests.model.demo import DEMO

from .load.checking import asked, lost_ballots, strange_answers
from .load.phone import Phone, Sent
from .load.promises import table
from .load.servers import servers
from .load.visitor import Move, Visitor
from .load.workshop import Asked, workshop

SMALL = Asked(full=2, phones=4, seconds=2.0, window=0.5, linger=0.0, stood=0.0)


@pytest.fixture(scope="module")
def study():
    return open_study(DEMO)


@pytest.mark.slow
def test_two_at_the_app_and_four_at_phones_get_their_own_answers(study, tmp_path) -> None:
    url = f"sqlite:///{tmp_path}/ballots.sqlite3"
    store = Ballots(url)
    code = store.new_session(Subject.chosen(study, Path(DEMO)).text).code
    with servers(1, str(tmp_path), url) as begun:
        run = workshop(SMALL, begun, code, say=lambda _words: None)
    kept, standing = store.export(code, history=True), store.export(code)
    assert [one.faults for one in (*run.visitors, *run.phones)] == [[]] * 6
    assert all(one.moves and one.moves[-1].settled for one in run.visitors)
    assert strange_answers(run.visitors, study) == []
    assert all(one.sent and one.sent[-1].acknowledged for one in run.phones)
    assert lost_ballots(run.phones, kept, standing) == []
    assert len(kept) == sum(len(one.sent) for one in run.phones)
    assert "slider answers" in table(SMALL, run)


def phone(**families: float) -> Phone:
    fields = {f"family-{name}": str(height) for name, height in families.items()}
    fields |= {"factor-sunlight": "60", "factor-late_frost": "20", "factor-drainage": "60"}
    return Phone(1, [], "", None, sent=[Sent(fields, True, 0.1)])


def row(**shares: float) -> pd.DataFrame:
    return pd.DataFrame([{"group": "Table 1", **shares}])


def test_a_familys_height_is_shared_among_its_factors() -> None:
    shares = asked(phone(place=80, ground=30).sent[0].fields)
    assert shares == {"sunlight": 60.0, "late_frost": 20.0, "drainage": 30.0}


def test_a_ballot_that_is_lost_or_changed_is_noticed() -> None:
    sent = phone(place=80, ground=30)
    right = row(sunlight=60.0, late_frost=20.0, drainage=30.0)
    wrong = row(sunlight=61.0, late_frost=20.0, drainage=30.0)
    assert lost_ballots([sent], right, right) == []
    assert "0 ballots kept of 1" in lost_ballots([sent], right[:0], right)[0]
    assert "otherwise" in lost_ballots([sent], wrong, right)[0]
    assert "not the last" in lost_ballots([sent], right, wrong)[0]


def test_an_answer_of_anothers_sliders_is_noticed(study) -> None:
    one, here = Visitor(0, 0, None), study.here()
    own = [study.options[k].label for k in here.order if not here.ruled_out[k]]
    one.ranking = own
    assert strange_answers([one], study) == []
    one.ranking = own[::-1]
    assert "expected" in strange_answers([one], study)[0]
    one.ranking = own
    one.moves = [Move("sunlight", 0.0, True, 0.1, False)]
    assert "not of the slider moved" in strange_answers([one], study)[0]
