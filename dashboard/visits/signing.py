"""The key that session tokens are signed by: the same for every process that serves a folder."""

import os
import secrets
import tempfile
from pathlib import Path

from dashboard.keeping.working_copy import copies_folder

SHORTEST = 32  # bytes, as long as the digest of the signature itself
SECRET = "TREESTEAD_SECRET"  # noqa: S105 - the name of a variable, not its value
FILE = "secret"


def signing_key() -> bytes:
    """The key: TREESTEAD_SECRET, else one kept in the data folder, made when there is none.

    Raises ValueError for a secret that could be guessed and OSError where none can be kept.
    """
    told = os.environ.get(SECRET, "").encode("utf-8")
    if told:
        return _long_enough(told, SECRET)
    folder = copies_folder().parent  # the app's own
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    path = folder / FILE
    if not path.exists():
        _keep_new(path)
    return _long_enough(path.read_bytes(), str(path))


def _keep_new(path: Path) -> None:
    """Keep a new key, unless another process was first: whole or not at all, for its owner only."""
    handle, draft = tempfile.mkstemp(prefix=".draft", dir=path.parent)  # of mode 0600
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(secrets.token_urlsafe(SHORTEST).encode("ascii"))
            file.flush()
            os.fsync(file.fileno())
        path.hardlink_to(draft)  # unlike a renaming, this never replaces another's
    except FileExistsError:
        pass
    finally:
        Path(draft).unlink()


def _long_enough(key: bytes, where: str) -> bytes:
    if len(key) < SHORTEST:
        raise ValueError(
            f"{where}: found {len(key)} bytes, expected {SHORTEST} or more that nobody can guess; "
            'mend by: python -c "import secrets; print(secrets.token_urlsafe(32))"'
        )
    return key
