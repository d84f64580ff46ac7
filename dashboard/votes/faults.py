"""What the ballot store refuses, and what is said when its database does not do its part."""

import errno
import logging
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy.exc import DataError, DBAPIError, IntegrityError, NotSupportedError
from sqlalchemy.exc import ProgrammingError as WronglyAsked
from sqlalchemy.exc import TimeoutError as NoneFree

from model.language import _, marked

OURS = (IntegrityError, DataError, NotSupportedError, WronglyAsked)  # no fault of the database
_logger = logging.getLogger(__name__)


class Refused(ValueError):  # noqa: N818 - what happened, said to a person
    """What cannot be done with a session or ballot, in a sentence for the one who asked."""


class Unreached(Refused):
    """The database could not be read or written: nothing was kept, and it may go well later."""


@contextmanager
def reached() -> Iterator[None]:
    """Faults of the database as Unreached, in words; how they came about goes into the log."""
    try:
        yield
    except OURS:
        raise
    except (DBAPIError, NoneFree, sqlite3.Error, OSError) as error:
        _logger.warning("the ballots' database: %s", error)
        said = _(
            "The vote cannot be reached: {why}. Nothing was kept: tell the teacher, try again."
        )
        raise Unreached(said.format(why=_why(error))) from error


def _why(error: Exception) -> str:
    """What is the matter with the database, in a few words that tell what to do."""
    cause = error.orig if isinstance(error, DBAPIError) and error.orig is not None else error
    name = getattr(cause, "sqlite_errorname", "")
    if isinstance(cause, OSError):
        name = {errno.ENOSPC: "SQLITE_FULL", errno.EROFS: "SQLITE_READONLY"}.get(
            cause.errno or 0, "SQLITE_CANTOPEN"
        )
    for part, words in WHY.items():
        if part in name:
            return _(words)
    return _("its database does not answer")


WHY = {
    "FULL": marked("the disk that its ballots are kept on is full"),
    "READONLY": marked("its ballots can only be read there, not written"),
    "BUSY": marked("another program holds its ballots"),
    "LOCKED": marked("another program holds its ballots"),
    "CANTOPEN": marked("its ballots' file cannot be opened"),
    "IOERR": marked("the disk that its ballots are kept on does not take them"),
    "CORRUPT": marked("its ballots' file is damaged"),
    "NOTADB": marked("its ballots' file is damaged"),
}
