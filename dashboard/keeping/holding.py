"""One folder held against other apps for as long as its files are read or written together."""

import errno
import os
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from model.language import _

try:
    import fcntl
except ImportError:  # Windows knows no such lock: two savings there may meet within a moment
    fcntl = None  # type: ignore[assignment]

PATIENCE = 10.0  # s; another app's saving takes a fraction of one
PAUSE = 0.02  # s


@contextmanager
def held(folder: Path, *, alone: bool) -> Iterator[None]:
    """Hold a folder, alone (to write it) or with other readers; it is let go when killed, too.

    Raises OSError when another app holds it for longer than anyone would wait.
    """
    number = _opened(folder)
    try:
        if number is not None and fcntl is not None:
            _take(number, fcntl.LOCK_EX if alone else fcntl.LOCK_SH)
        yield
    finally:
        if number is not None:
            os.close(number)


def _opened(folder: Path) -> int | None:
    """The folder opened to be locked, None where the system has no way to."""
    if fcntl is None:
        return None
    try:
        return os.open(folder, os.O_RDONLY)
    except OSError:
        return None


def _take(number: int, lock: int) -> None:
    end = time.monotonic() + PATIENCE
    while True:
        try:
            fcntl.flock(number, lock | fcntl.LOCK_NB)
        except BlockingIOError:
            if time.monotonic() > end:
                why = _("another app is writing into this folder")
                raise OSError(errno.EBUSY, why) from None
            time.sleep(PAUSE)
        except OSError:  # a disk of the network that locks nothing
            return
        else:
            return
