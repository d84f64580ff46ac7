"""Sessions and ballots as rows of the store, and what the store refuses."""

import hashlib
import hmac
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any, NamedTuple

from sqlalchemy import ColumnElement, Connection, Row, RowMapping, func, select, update

from dashboard.votes.faults import Refused
from dashboard.votes.tables import sessions, votes
from model.group.ballot import Ballot

MOST_BALLOTS = 500  # in a round: more is a machine gone wild, not a class
CLOSED = {
    "frozen": "Voting is closed for now: what you sent before stands.",
    "revealed": "The results are being shown: wait for the next round.",
}


class Key(NamedTuple):
    """What opens a session: the code for everyone, the owner's key for the teacher alone."""

    code: str
    owner: str


@dataclass(frozen=True)
class Session:
    """A vote under way: `state` is open, frozen or revealed; `version` rises with any change."""

    code: str
    site: str
    created: str
    state: str
    round: int
    version: int


def now() -> str:
    """The present time as the store writes it."""
    return datetime.now(UTC).isoformat(timespec="seconds")


def digest(secret: str) -> str:
    """What is kept of a secret too long to guess."""
    return hashlib.sha256(secret.encode()).hexdigest()


def session(connection: Connection, code: str, lock: bool = False) -> Session:
    """The session of a code as typed; locked, nobody else writes in it until the end."""
    return _session(_session_row(connection, code, lock))


def owned(connection: Connection, code: str, owner: str) -> Session:
    """The session of a code, locked, for the one who holds its owner's key."""
    row = _session_row(connection, code, lock=True)
    if not hmac.compare_digest(row.owner, digest(owner)):
        raise Refused("Only the one who began this vote can do that.")
    return _session(row)


def touch(connection: Connection, code: str, **to: Any) -> None:
    """Change a session, and raise its version so that every onlooker sees it."""
    raised = update(sessions).where(sessions.c.code == code)
    connection.execute(raised.values(version=sessions.c.version + 1, **to))


def in_round(voted: Session, round: int | None = None) -> ColumnElement[bool]:  # noqa: A002 - the word people use
    """Whether a vote is of a round of the session (the present one)."""
    wanted = voted.round if round is None else round
    return (votes.c.code == voted.code) & (votes.c.round == wanted)


def accept(connection: Connection, voted: Session, ballot: Ballot, token: str) -> None:
    """Raise Refused unless the session takes this ballot now from this digest of a token."""
    if voted.state != "open":
        raise Refused(CLOSED[voted.state])
    if ballot.round != voted.round:
        raise Refused(
            f"Round {voted.round} is being voted on, and this ballot is for round "
            f"{ballot.round}: send it again."
        )
    others = (votes.c.code == voted.code) & (votes.c.token != token)
    namesakes = select(votes.c.id).where(others, votes.c.name_key == ballot.group.casefold())
    if connection.execute(namesakes.limit(1)).first() is not None:
        raise Refused(f"Another group is called {ballot.group}: choose another name.")
    count = select(func.count()).select_from(votes).where(others, in_round(voted))
    if connection.execute(count).scalar_one() >= MOST_BALLOTS:
        raise Refused(f"This round has {MOST_BALLOTS} ballots already: it takes no more.")


def row_of(voted: Session, token: str, ballot: Ballot) -> dict[str, Any]:
    """A ballot as it is kept."""
    return {
        "code": voted.code,
        "token": token,
        "round": voted.round,
        "name": ballot.group,
        "name_key": ballot.group.casefold(),
        "weights": dict(ballot.weights),
        "trade_off": ballot.trade_off,
        "options": list(ballot.options),
        "at": now(),
    }


def ballot_of(row: RowMapping) -> Ballot:
    """A ballot as it was kept."""
    return Ballot(
        group=row["name"],
        weights=row["weights"],
        trade_off=row["trade_off"],
        options=tuple(row["options"]),
        round=row["round"],
        at=row["at"],
    )


def line_of(ballot: Ballot) -> dict[str, Any]:
    """A ballot as a row of the export."""
    told = {"round": ballot.round, "group": ballot.group, "at": ballot.at}
    options = "; ".join(ballot.options)
    return {**told, "trade_off": ballot.trade_off, "options": options, **ballot.weights}


def _session_row(connection: Connection, code: str, lock: bool) -> Row[Any]:
    typed = "".join(one for one in code.upper() if one.isalnum())
    wanted = select(sessions).where(sessions.c.code == typed)
    row = connection.execute(wanted.with_for_update() if lock else wanted).first()
    if row is None:
        raise Refused(f"There is no vote with the code {typed[:12] or 'given'}: look at it again.")
    return row


def _session(row: Row[Any]) -> Session:
    return Session(row.code, row.site, row.created, row.state, row.round, row.version)
