"""Files and folders made beside their place first, so that nothing half written is ever read."""

import os
import shutil
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

PREFIX = ".treestead-"  # begins the name of whatever is not yet, or no longer, in its place
STALE = 86_400  # s; what is younger may be another app's, at work this very moment


def written(path: Path, content: str | bytes) -> Path:
    """The file, written whole or not at all; what stood there before is replaced.

    Raises OSError when the folder cannot be written or is full.
    """
    return drafted(path.parent, content).replace(path)


def drafted(folder: Path, content: str | bytes) -> Path:
    """A file on disk that only wants its name; nothing of it is left where there is no room."""
    data = content.encode("utf-8") if isinstance(content, str) else content
    number, name = tempfile.mkstemp(prefix=PREFIX, dir=folder)
    draft = Path(name)
    try:
        with os.fdopen(number, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        draft.chmod(0o644)
    except BaseException:
        draft.unlink(missing_ok=True)
        raise
    return draft


@contextmanager
def draft_folder(parent: Path) -> Iterator[Path]:
    """A folder to be filled and then moved to its place; what was not moved is removed."""
    draft = Path(tempfile.mkdtemp(prefix=PREFIX, dir=parent))
    try:
        yield draft
    finally:
        shutil.rmtree(draft, ignore_errors=True)


def put_away(path: Path) -> None:
    """Remove a folder so that at no moment half of it stands in its place."""
    aside = path.with_name(f"{PREFIX}{path.name}-{os.urandom(6).hex()}")
    path.replace(aside)
    shutil.rmtree(aside, ignore_errors=True)


def sweep(folder: Path, prefixes: tuple[str, ...] = (PREFIX,)) -> None:
    """Remove from a folder what writers left that were killed a day ago or longer.

    A folder that cannot be read or written is left as it is.
    """
    with suppress(OSError):
        for path in list(folder.iterdir()):
            if path.name.startswith(prefixes) and _is_stale(path):
                _removed(path)


def _is_stale(path: Path) -> bool:
    with suppress(OSError):
        return time.time() - path.lstat().st_mtime > STALE
    return False


def _removed(path: Path) -> None:
    if path.is_dir() and not path.is_symlink():
        shutil.rmtree(path, ignore_errors=True)
        return
    with suppress(OSError):
        path.unlink()
