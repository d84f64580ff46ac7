"""The ballot store: what groups sent, kept so that none is lost and nobody sends for another.

A session has a code that people type and an owner's key that its teacher keeps. A participant has
a token and can replace the ballot under its own token only. All that is returned is on disk.
"""

import secrets
from dataclasses import replace
from typing import Any

import pandas as pd
from sqlalchemy import delete, insert, select, update
from sqlalchemy.exc import IntegrityError

from dashboard.votes import rows
from dashboard.votes.faults import Refused, Unreached
from dashboard.votes.rows import Key, Session
from dashboard.votes.tables import log, opened, reading, sessions, votes, writing
from model.csv_text import csv_text
from model.group.ballot import NAMES, Ballot, plain_name

LETTERS = "23456789BCDFGHJKMNPQRSTVWXZ"  # none mistaken for another, no vowels to make words of
LENGTH = 5

__all__ = ["Ballots", "Key", "Refused", "Session", "Unreached", "new_token"]


def new_token() -> str:
    """A participant's token, too long to guess."""
    return secrets.token_urlsafe(24)


class Ballots:
    """Sessions and ballots in SQLite, or in PostgreSQL where several servers share them.

    `url` is postgresql://... or sqlite:///FILE; unset, TREESTEAD_BALLOTS, else the user's file.
    Whatever cannot be done raises Refused with a sentence for the one who asked: Unreached where
    the database is full, locked, damaged or away.
    """

    def __init__(self, url: str | None = None) -> None:
        self._engine = opened(url)

    def close(self) -> None:
        """Let go of the database."""
        self._engine.dispose()

    def new_session(self, site: str) -> Key:
        """A session begun, open for its first round."""
        key = Key("".join(secrets.choice(LETTERS) for _ in range(LENGTH)), new_token())
        begun = {"site": site, "created": rows.now(), "state": "open", "round": 1, "version": 1}
        owner = rows.digest(key.owner)
        try:
            with writing(self._engine) as connection:
                connection.execute(insert(sessions).values(code=key.code, owner=owner, **begun))
        except IntegrityError:  # the code is taken: draw another
            return self.new_session(site)
        return key

    def session(self, code: str) -> Session:
        """The session of a code as people type it."""
        with reading(self._engine) as connection:
            return rows.session(connection, code)

    def changed_since(self, code: str, version: int) -> Session | None:
        """The session if anything in it changed since a version was seen, else None."""
        session = self.session(code)
        return session if session.version != version else None

    def cast(self, code: str, token: str, ballot: Ballot) -> Ballot:
        """A ballot as it was kept, in place of the token's earlier one of the round.

        It is on disk when this returns. Refused where there is no such session, voting is closed,
        the ballot is for another round, or its name is another group's.
        """
        own = rows.digest(token)
        with writing(self._engine) as connection:
            session = rows.session(connection, code, lock=True)
            rows.accept(connection, session, ballot, own)
            row = rows.row_of(session, own, ballot)
            mine = rows.in_round(session) & (votes.c.token == own)
            if not connection.execute(update(votes).where(mine).values(row)).rowcount:
                connection.execute(insert(votes).values(row))
            connection.execute(insert(log).values(row))
            rows.touch(connection, session.code)
        return replace(ballot, at=row["at"])

    def ballots(self, code: str, round: int | None = None) -> tuple[Ballot, ...]:  # noqa: A002 - the word people use
        """The ballots of a round (the present one), by the groups' names."""
        with reading(self._engine) as connection:
            wanted = rows.in_round(rows.session(connection, code), round)
            found = connection.execute(select(votes).where(wanted).order_by(votes.c.name_key))
            return tuple(rows.ballot_of(row) for row in found.mappings())

    def own(self, code: str, token: str, round: int | None = None) -> Ballot | None:  # noqa: A002 - as above
        """The ballot under a token in a round (the present one), None where it sent none."""
        with reading(self._engine) as connection:
            wanted = rows.in_round(rows.session(connection, code), round)
            mine = select(votes).where(wanted, votes.c.token == rows.digest(token))
            row = connection.execute(mine).mappings().first()
            return None if row is None else rows.ballot_of(row)

    def freeze(self, code: str, owner: str) -> Session:
        """The session closed to ballots."""
        return self._turned(code, owner, state="frozen")

    def open(self, code: str, owner: str) -> Session:
        """The session open to ballots again, in the same round."""
        return self._turned(code, owner, state="open")

    def reveal(self, code: str, owner: str) -> Session:
        """The session closed, its results to be shown."""
        return self._turned(code, owner, state="revealed")

    def next_round(self, code: str, owner: str) -> Session:
        """The session open for another round; the earlier ballots stay beside it."""
        return self._turned(code, owner, state="open", round=sessions.c.round + 1)

    def reset(self, code: str, owner: str) -> Session:
        """The session begun afresh at round 1, without ballots; only the log remembers them."""
        return self._turned(code, owner, votes.c.id > 0, state="open", round=1)

    def strike(self, code: str, owner: str, group: str) -> Session:
        """The session without a group's ballots, so that its name is free again."""
        return self._turned(code, owner, votes.c.name_key == plain_name(group).casefold())

    def forget(self, code: str, owner: str) -> None:
        """Remove a session with its ballots and its log, for good."""
        with writing(self._engine) as connection:
            session = rows.owned(connection, code, owner)
            connection.execute(delete(sessions).where(sessions.c.code == session.code))

    def export(self, code: str, history: bool = False) -> pd.DataFrame:
        """All rounds' ballots, one a row, a column of weight for each factor.

        With `history` every vote in the order it came, those replaced since as well.
        """
        table = log if history else votes
        order = (table.c.id,) if history else (table.c.round, table.c.name_key)
        with reading(self._engine) as connection:
            own = table.c.code == rows.session(connection, code).code
            found = connection.execute(select(table).where(own).order_by(*order)).mappings()
            lines = [rows.line_of(rows.ballot_of(row)) for row in found]
        return pd.DataFrame(lines, columns=["round", "group", "at", "trade_off", "options", *NAMES])

    def export_csv(self, code: str, history: bool = False) -> str:
        """The export as CSV text, words that a spreadsheet would run as formulas disarmed."""
        return csv_text(self.export(code, history), figures=None)

    def _turned(self, code: str, owner: str, gone: Any = None, **to: Any) -> Session:
        """The session after its owner changed it, and perhaps took ballots out."""
        with writing(self._engine) as connection:
            session = rows.owned(connection, code, owner)
            if gone is not None:
                connection.execute(delete(votes).where(votes.c.code == session.code, gone))
            rows.touch(connection, session.code, **to)
            return rows.session(connection, code)
