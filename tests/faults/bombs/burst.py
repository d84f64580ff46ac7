"""What comes of a bomb.

The bounds stand here and nowhere else. A bomb is refused, in words that say where, within LONGEST
seconds of a core's time (measured: at most 0.8, and 1.2 for heights just below the largest that
are read); the process may hold MOST_MEMORY more than it did before.
"""

import json
import os
import resource
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from pathlib import Path
from time import process_time

from model.planting.year_after.standing import standing_trees
from model.survey import SurveyFaults, read_site
from model.trees import CatalogueFaults
from tests.faults import samples, uploads

from .bomb import Bomb
from .packed import packed_bombs
from .planting import study_bombs
from .survey import survey_bombs

LONGEST = 1.0  # s of a core's time, on a quiet core of 2020 or later
STALLED = 30.0  # s by the clock, after which the process is ended: far beyond any busy machine
MOST_MEMORY = 600  # MB above what the process held before
ERRORS = (SurveyFaults, CatalogueFaults, ValueError)


@dataclass(frozen=True)
class Burst:
    """What came of a bomb: core seconds, MB more than before, and what was said."""

    name: str
    seconds: float
    megabytes: float
    said: str
    wrong: str = ""


def bombs() -> tuple[Bomb, ...]:
    """All of them."""
    return (*survey_bombs(), *study_bombs(), *packed_bombs())


def burst(bomb: Bomb, folder: Path) -> Burst:
    """What comes of a bomb, read by a copy of this process that has bounds and then ends."""
    path, told = folder / bomb.file, folder / "told.json"
    path.write_bytes(bomb.content())
    child = os.fork()
    if not child:
        _in_bounds()
        before, began = _peak(), process_time()
        said, wrong = _said(bomb, path)
        spent = process_time() - began
        name = f"{bomb.file}: {bomb.name}"
        result = Burst(name, round(spent, 2), round(_peak() - before, 1), said[:300], wrong)
        told.write_text(json.dumps(asdict(result)), encoding="utf-8")
        os._exit(0)
    _, status = os.waitpid(child, 0)
    if not told.is_file():
        return Burst(
            f"{bomb.file}: {bomb.name}", STALLED, 0, "", f"the process died of it: {status}"
        )
    return Burst(**json.loads(told.read_text(encoding="utf-8")))


def _in_bounds() -> None:
    resource.setrlimit(resource.RLIMIT_CPU, (int(STALLED), int(STALLED)))
    held = int(Path("/proc/self/statm").read_text(encoding="ascii").split()[0])
    most = held * resource.getpagesize() + 2 * MOST_MEMORY * 2**20
    resource.setrlimit(resource.RLIMIT_AS, (most, most))


def _said(bomb: Bomb, path: Path) -> tuple[str, str]:
    """What was said of a bomb, and what is wrong with that."""
    try:
        said = "\n".join(bomb.read(path) or ())
    except ERRORS as error:
        said = str(error)
    except BaseException as error:  # noqa: BLE001 - also MemoryError, which is told as what it is
        return "", f"undocumented: {type(error).__name__}: {str(error)[:300]}"
    if not said and bomb.refused:
        return "", "it was taken"
    names = (bomb.file, "site.toml", "The link's")
    is_placed = not said or any(name in said for name in names)
    return said, "" if is_placed else "no word of where"


def _peak() -> float:
    """The most memory this process has held [MB]."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


def bursts(folder: Path) -> Iterator[Burst]:
    """What comes of every bomb, read one after another in a folder."""
    warm(folder)
    for number, bomb in enumerate(bombs()):
        place = folder / str(number)
        place.mkdir()
        yield burst(bomb, place)
        (place / bomb.file).unlink()


def warm(folder: Path) -> None:
    """What the first reading of anything costs is no bomb's doing."""
    first = folder / "first"
    first.mkdir()
    for name, content in {"site.toml": samples.SITE.encode(), **samples.extra()}.items():
        (first / name).write_bytes(content)
    read_site(first)
    (folder / "first" / "placement.csv").write_text(samples.PLACEMENT, encoding="utf-8")
    standing_trees(samples.study(), first / "placement.csv")
    uploads.session()
    samples.demo_site()
