"""The tables of the ballot store, and the database that they stand in."""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from platformdirs import user_data_path
from sqlalchemy import (
    JSON,
    Column,
    Connection,
    Engine,
    Float,
    ForeignKey,
    Integer,
    MetaData,
    String,
    Table,
    Text,
    UniqueConstraint,
    create_engine,
    event,
    text,
)
from sqlalchemy.engine import URL, make_url

from dashboard.votes.faults import reached

PATIENCE = 12  # seconds to wait while another process writes: phones hear of it before they give up
BUILDING = 7_349_001  # the lock, any number, under which PostgreSQL's tables are made
WRITING = "treestead_writing"

metadata = MetaData()


def _vote() -> tuple[Column[Any], ...]:
    """The columns of a vote; tokens are kept as digests, so that reading gives nobody a key."""
    session = ForeignKey("treestead_sessions.code", ondelete="CASCADE")
    return (
        Column("id", Integer, primary_key=True),
        Column("code", String(8), session, nullable=False, index=True),
        Column("token", String(64), nullable=False),
        Column("round", Integer, nullable=False),
        Column("name", Text, nullable=False),
        Column("name_key", Text, nullable=False),
        Column("weights", JSON, nullable=False),
        Column("trade_off", Float, nullable=False),
        Column("options", JSON, nullable=False),
        Column("at", String(40), nullable=False),
    )


sessions = Table(
    "treestead_sessions",
    metadata,
    Column("code", String(8), primary_key=True),
    Column("owner", String(64), nullable=False),
    Column("site", Text, nullable=False),
    Column("created", String(40), nullable=False),
    Column("state", String(8), nullable=False),
    Column("round", Integer, nullable=False),
    Column("version", Integer, nullable=False),
)
votes = Table(
    "treestead_ballots",
    metadata,
    *_vote(),
    UniqueConstraint("code", "round", "token"),
    UniqueConstraint("code", "round", "name_key"),
)
# Only ever added to: every vote that was acknowledged, those replaced since as well.
log = Table("treestead_ballot_log", metadata, *_vote())


def opened(url: str | None) -> Engine:
    """The database at a URL, its tables made; by default a file of the user's own.

    `url` is sqlite:///FILE or postgresql://...; unset, what TREESTEAD_BALLOTS says. Unreached
    where it cannot be written.
    """
    address = url or os.environ.get("TREESTEAD_BALLOTS") or _own_file()
    with reached():
        engine = _engine(make_url(address))
    with writing(engine) as connection:
        if engine.dialect.name == "postgresql":
            connection.execute(text("SELECT pg_advisory_xact_lock(:n)"), {"n": BUILDING})
        metadata.create_all(connection)
    return engine


@contextmanager
def writing(engine: Engine) -> Iterator[Connection]:
    """A transaction that writes: on disk once it is left, or nothing of it and Unreached."""
    options = {WRITING: True}
    with (
        reached(),
        engine.connect().execution_options(**options) as connection,
        connection.begin(),
    ):
        yield connection


@contextmanager
def reading(engine: Engine) -> Iterator[Connection]:
    """A connection to read by; Unreached where the database does not answer."""
    with reached(), engine.connect() as connection:
        yield connection


def _own_file() -> URL:
    return URL.create("sqlite", database=str(user_data_path("treestead") / "ballots.sqlite3"))


def _engine(url: URL) -> Engine:
    if url.get_backend_name() == "sqlite":
        return _sqlite(url)
    if url.drivername in ("postgres", "postgresql", "postgresql+psycopg"):
        try:
            return create_engine(url.set(drivername="postgresql+psycopg"), pool_pre_ping=True)
        except ImportError as error:
            raise ValueError(
                "Ballots in PostgreSQL: found no psycopg, expected that package; mend by "
                "installing treestead[postgres]."
            ) from error
    raise ValueError(
        f"The ballots' database: found {url.drivername}, expected sqlite or postgresql; mend by "
        "an address such as postgresql://user@host/name."
    )


def _sqlite(url: URL) -> Engine:
    if not url.database or url.database == ":memory:":
        raise ValueError(
            "The ballots' database: found one in memory, expected a file, since ballots must "
            "outlive the server; mend by an address such as sqlite:///ballots.sqlite3."
        )
    file = Path(url.database)
    file.parent.mkdir(parents=True, exist_ok=True)
    file.touch(mode=0o600)
    engine = create_engine(url, connect_args={"timeout": PATIENCE})
    event.listen(engine, "connect", _durable)
    event.listen(engine, "begin", _begun)
    return engine


def _durable(connection: Any, _record: Any) -> None:
    """Each commit is on disk when it returns; readers never wait for a writer."""
    connection.isolation_level = None  # the driver must not begin transactions of its own
    for setting in ("journal_mode = WAL", "synchronous = FULL", "foreign_keys = ON"):
        connection.execute(f"PRAGMA {setting}")


def _begun(connection: Connection) -> None:
    """A writer takes its turn at once: one that began by reading could not wait for it."""
    writes = connection.get_execution_options().get(WRITING, False)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")
