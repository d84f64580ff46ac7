"""Many tries of one reader, and what came of them."""

import shutil
import tempfile
from dataclasses import dataclass
from pathlib import Path

from tests.faults.readers import readers
from tests.faults.trial import Reader, bench, harmed

MOST_SHOWN = 5  # failures of one reader, each of which is kept as a file


@dataclass(frozen=True)
class Round:
    """All tries of one reader, and in words what went wrong."""

    name: str
    tries: int
    refused: int
    worst: float
    failures: tuple[str, ...]


def round_of(name: str, seed: int, first: int, count: int) -> Round:
    """The tries of one reader, from the first on."""
    reader = next(one for one in readers() if one.name == name)
    refused, worst, failures = 0, 0.0, []
    folder = Path(tempfile.mkdtemp(prefix="treestead-faults-"))
    made = bench(reader, folder)
    made.tried(reader.sample())  # what the first reading of anything costs is no file's doing
    for number in range(first, first + count):
        data = harmed(reader, seed, number)
        tried = made.tried(data)
        refused += bool(tried.said)
        worst = max(worst, tried.seconds)
        if tried.wrong and len(failures) < MOST_SHOWN:
            failures.append(_kept(reader, (seed, number), data, tried.wrong))
    shutil.rmtree(folder)
    return Round(name, count, refused, worst, tuple(failures))


def _kept(reader: Reader, place: tuple[int, int], data: bytes, wrong: str) -> str:
    """What went wrong, and the file that brought it about, which is kept."""
    folder = Path(tempfile.mkdtemp(prefix="treestead-failed-"))
    (folder / reader.file).write_bytes(data)
    again = f"--reader '{reader.name}' --seed {place[0]} --first {place[1]} --tries 1"
    return f"{wrong}\n  again by {again}; the file: {folder / reader.file}"
