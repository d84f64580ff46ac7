"""What was computed of the ground, kept on disk by its content: nothing is run twice.

A file is named by a digest of everything that goes into it: the physics' own code, the features,
heights, weather and catalogue values. What changed gets another name, so nothing stale is read.
"""

import hashlib
import os
import tempfile
import time
from collections.abc import Callable, Mapping
from contextlib import suppress
from dataclasses import dataclass, fields, is_dataclass
from functools import cache
from pathlib import Path
from typing import Any, TypeVar
from zipfile import BadZipFile

import numpy as np
import pandas as pd
from platformdirs import user_cache_path
from shapely.geometry.base import BaseGeometry

Kept = TypeVar("Kept")
MOST = 300_000_000  # bytes kept in all; the longest unused go first
DRAFT = ".part"  # ends the name of a file that is being written
STALE = 86_400  # s after which whoever was writing a draft was killed
CODE = Path(__file__).parents[1]


@dataclass(frozen=True)
class Store:
    """A folder of arrays, each file named by what it was computed from."""

    folder: Path

    def kept(self, kind: type[Kept], inputs: Any, compute: Callable[[], Kept]) -> Kept:
        """A dataclass of arrays, read if it was computed from the same inputs before.

        Where the folder cannot be read or written it is computed all the same.
        """
        path = self.folder / f"{kind.__name__.lower()}-{_digest(inputs)}.npz"
        found = _read(path, kind)
        if found is None:
            found = compute()
            _write(path, found)
            _prune(self.folder)
        return found


def usual_store() -> Store:
    """The store in the user's cache folder, or where TREESTEAD_CACHE says."""
    chosen = os.environ.get("TREESTEAD_CACHE")
    return Store(Path(chosen) if chosen else user_cache_path("treestead") / "ground")


def _digest(inputs: Any) -> str:
    digest = hashlib.sha256(_code())
    _feed(digest.update, inputs)
    return digest.hexdigest()[:32]


@cache
def _code() -> bytes:
    """Digest of the code that computes the ground."""
    digest = hashlib.sha256()
    for part in ("land", "ground", "survey", "trees"):
        for path in sorted((CODE / part).rglob("*.py")):
            digest.update(path.read_bytes())
    return digest.digest()


def _feed(update: Callable[[bytes], None], value: Any) -> None:
    """Everything that a value says, in one order, into a digest."""
    update(type(value).__name__.encode())
    if isinstance(value, np.ndarray):
        update(f"{value.dtype}{value.shape}".encode())
        update(np.ascontiguousarray(value).tobytes())
    elif isinstance(value, BaseGeometry):
        update(value.wkb)
    elif isinstance(value, pd.DataFrame):
        update(value.to_csv(float_format="%.17g").encode())
    elif is_dataclass(value):
        for field in fields(value):
            _feed(update, getattr(value, field.name))
    elif isinstance(value, Mapping):
        for key in sorted(value, key=repr):
            _feed(update, key)
            _feed(update, value[key])
    elif isinstance(value, list | tuple):
        for part in value:
            _feed(update, part)
    else:
        update(repr(value).encode())


def _read(path: Path, kind: type[Kept]) -> Kept | None:
    """What a file holds, None where there is none or it cannot be read."""
    try:
        with np.load(path, allow_pickle=False) as arrays:
            found = kind(**{name: arrays[name] for name in arrays.files})
    except (OSError, ValueError, TypeError, EOFError, KeyError, BadZipFile):
        return None
    with suppress(OSError):  # a store that can only be read is as good
        path.touch()
    return found


def _write(path: Path, kept: Any) -> None:
    """Write a dataclass of arrays whole or not at all; without room it is not kept."""
    arrays = {field.name: np.asarray(getattr(kept, field.name)) for field in fields(kept)}
    with suppress(OSError):
        path.parent.mkdir(parents=True, exist_ok=True)
        number, name = tempfile.mkstemp(suffix=DRAFT, dir=path.parent)
        draft = Path(name)
        try:
            with os.fdopen(number, "wb") as file:
                np.savez(file, allow_pickle=False, **arrays)
            draft.replace(path)
        finally:
            draft.unlink(missing_ok=True)


def _prune(folder: Path) -> None:
    """Drop the files longest unused until the store is no larger than it may be, and old drafts."""
    try:
        for draft in folder.glob(f"*{DRAFT}"):
            if time.time() - draft.stat().st_mtime > STALE:
                draft.unlink(missing_ok=True)
        found = [(path, path.stat()) for path in folder.glob("*.npz")]
        found.sort(key=lambda entry: entry[1].st_mtime)
        total = sum(entry.st_size for _, entry in found)
        for path, entry in found:
            if total <= MOST:
                return
            path.unlink(missing_ok=True)
            total -= entry.st_size
    except OSError:
        return
