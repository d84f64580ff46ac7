"""One try: a harmed file before its reader, and what must hold whatever is in the file."""

import tempfile
import traceback
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from random import Random
from time import perf_counter, process_time
from typing import Any

STALLED = 120.0  # s by the clock, which on a busy machine may run ten times as fast as the work


@dataclass(frozen=True)
class Reader:
    """A reader of the app, with a file that it can read.

    `read` is given the harmed file, among the files that stand `beside` it; what is wrong it
    raises as one of `errors`, exactly, or gives back as sentences. Each sentence names one of
    `places`. `share` is how many of a round's tries it gets: fewer where a try takes long.
    """

    name: str
    file: str
    sample: Callable[[], bytes]
    read: Callable[[Path], Iterable[str] | None]
    harmed: Callable[[bytes, Random], bytes]
    errors: tuple[type[Exception], ...]
    places: tuple[str, ...] = ()
    beside: Callable[[], dict[str, bytes]] = dict
    share: float = 1.0


@dataclass(frozen=True)
class Tried:
    """What came of a try: what was said of the file, seconds of a core, what is wrong with it."""

    said: tuple[str, ...]
    seconds: float
    wrong: str = ""


@dataclass
class Bench:
    """A folder for the files of one reader, and an empty one for what the app puts aside."""

    reader: Reader
    folder: Path
    aside: Path

    def tried(self, data: bytes) -> Tried:
        """The reader's answer to a file."""
        (self.folder / self.reader.file).write_bytes(data)
        before = self._contents()
        clock, began = perf_counter(), process_time()
        with _aside(self.aside):
            said, wrong = self._answer(self.folder / self.reader.file)
        seconds, waited = process_time() - began, perf_counter() - clock
        after = self._contents()
        wrong = wrong or _unplaced(said, (self.reader.file, *self.reader.places))
        wrong = wrong or (f"files changed: {_changed(before, after)}" if before != after else "")
        if waited > STALLED:
            wrong = wrong or f"no answer within {STALLED:g} s"
        for name in set(after) - set(before):
            Path(name).unlink()
        return Tried(said, seconds, wrong)

    def _answer(self, path: Path) -> tuple[tuple[str, ...], str]:
        try:
            return tuple(self.reader.read(path) or ()), ""
        except self.reader.errors as error:
            if type(error) not in self.reader.errors:
                return (), f"undocumented error:\n{traceback.format_exc()}"
            said = tuple(str(error).splitlines())
            return said, "" if said else "an error without words"
        except Exception:  # noqa: BLE001 - any other error is what this looks for
            return (), f"undocumented error:\n{traceback.format_exc()}"

    def _contents(self) -> dict[str, tuple[int, bytes]]:
        """Every file that stands where the app may write, when it was written and what is in it."""
        return {
            str(file): (file.stat().st_mtime_ns, file.read_bytes())
            for place in (self.folder, self.aside)
            for file in place.rglob("*")
            if file.is_file()
        }


@contextmanager
def _aside(folder: Path) -> Iterator[None]:
    """What is put aside for a time goes into a folder that is watched."""
    usual, tempfile.tempdir = tempfile.tempdir, str(folder)
    try:
        yield
    finally:
        tempfile.tempdir = usual


def bench(reader: Reader, folder: Path) -> Bench:
    """A bench in a folder, with the files that stand beside."""
    files, aside = folder / "files", folder / "aside"
    files.mkdir(parents=True)
    aside.mkdir()
    for name, content in reader.beside().items():
        (files / name).write_bytes(content)
    return Bench(reader, files, aside)


def harmed(reader: Reader, seed: int, number: int) -> bytes:
    """The file of one try, the same for the same seed and number."""
    return reader.harmed(reader.sample(), Random(f"{seed} {reader.name} {number}"))  # noqa: S311


def _unplaced(said: tuple[str, ...], places: tuple[str, ...]) -> str:
    """The first sentence that does not say where the fault is."""
    for sentence in said:
        if not any(place in sentence for place in places):
            return f"no word of where: {sentence!r}"
    return ""


def _changed(before: dict[str, Any], after: dict[str, Any]) -> str:
    names = sorted({*before, *after})
    return ", ".join(name for name in names if before.get(name) != after.get(name))
