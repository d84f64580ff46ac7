"""What is answered to phones: the page as the vote stands, and what a sent form comes to."""

from datetime import datetime

import numpy as np

from dashboard.join import html
from dashboard.join.form import Fields, ballot_of, blank, filled
from dashboard.join.judge import Judge, Question
from dashboard.join.voting import Voting
from dashboard.votes.ballots import Session
from model.group.agreement import Agreement
from model.group.ballot import NAMES, Ballot
from model.group.own_ballot import own_differences
from model.language import _

# A land of no place, by which a name is judged before there is a ballot.
NO_LAND = Judge(
    site="",
    place_name="",
    questions=(Question(NAMES[0], "place", "", "", 1.0),),
    options=(),
    worth=np.zeros((1, 0)),
    allowed=np.zeros(0, dtype=bool),
    trade_off=-1.0,
)
entry, message = html.entry, html.message


def vote(voting: Voting, session: Session, token: str, group: str) -> str:
    """The page of one phone: its form, or the results once they are revealed."""
    judge = voting.judge(session)
    own = voting.store.own(session.code, token)
    if session.state == "revealed":
        found = voting.agreement(session, session.round)
        return html.results(session, judge, found, _own_place(found, own))
    before = voting.store.own(session.code, token, session.round - 1)
    start = own or before
    shown = filled(judge, start) if start else blank(judge, group)
    asked = start or ballot_of(judge, {}, group, session.round)
    said = (judge.result(asked), sent_words(own) if own else "", before_words(judge, before))
    return html.ballot(session, judge, shown, said, before)


def cast(
    voting: Voting, session: Session, token: str, fields: Fields, group: str
) -> tuple[Ballot, str]:
    """The ballot as it was kept, and the sentence that says so."""
    stated = fields.get("round", [""])[0]
    voted = int(stated) if stated.isdecimal() and len(stated) < 6 else session.round
    ballot = ballot_of(voting.judge(session), fields, group, voted)
    kept = voting.store.cast(session.code, token, ballot)
    voting.stale(session.code)
    return kept, sent_words(kept)


def result(voting: Voting, session: Session, fields: Fields) -> str:
    """What the form would come to, in a sentence."""
    judge = voting.judge(session)
    return judge.result(ballot_of(judge, fields, "unnamed", session.round))


def sent_words(ballot: Ballot) -> str:
    """When a ballot was sent, by the server's clock."""
    at = datetime.fromisoformat(ballot.at).astimezone()
    said = _("Sent at {time}; change and send again until the teacher freezes the vote.")
    return said.format(time=f"{at:%H:%M}")


def before_words(judge: Judge, before: Ballot | None) -> str:
    """What the group's own earlier vote came to."""
    return "" if before is None else judge.result(before, _("By your vote before"))


def _own_place(found: Agreement | None, own: Ballot | None) -> tuple[str, ...]:
    return () if found is None or own is None else own_differences(found, own.group)
