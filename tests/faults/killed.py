"""What is on the disk when the app is killed: run on its own, since it forks.

`python -m tests.faults.killed FOLDER TIMES` does each of the ACTS again and again, in new cases
FOLDER/ACT/1, 2 and so on, and kills it (SIGKILL) at its first step on a file, at its second, until
it comes to its end. Those that have no END are killed at TIMES random moments. What they said
before they died is printed after the name of the case.
"""

import os
import signal
import sys
from collections.abc import Callable
from pathlib import Path
from random import Random
from time import sleep

from dashboard.keeping.drafts import written
from dashboard.keeping.working_copy import WorkingCopy
from model.ground import Ground
from model.ground.store import Store
from tests.model.small_site import CATALOGUE, box, feature, site

# What changes a folder; between two of these it stays as it is.
STEPS = {"os.link", "os.mkdir", "os.remove", "os.rename", "os.rmdir", "shutil.copyfile"}
OLD = {"site.toml": "name = 'Old'\n" * 50, "spots.csv": "spot\nold\n", "order.csv": "count\n1\n"}
NEW = {"site.toml": "name = 'New'\n" * 70, "order.csv": "count\n2\n", "plan.json": "{}\n"}
Act = Callable[[Path], Callable[[], object]]
VISITOR = "visitor-of-the-tests-of-kills"
BARN = feature("building", box(10, 10, 20, 20), "the barn", height_m=5.0)


def copy_in(case: Path) -> WorkingCopy:
    """The visitor's copy of a case's folder, opened as the app opens it when it starts."""
    os.environ["TREESTEAD_DATA"] = str(case / "data")
    return WorkingCopy(case / "field", VISITOR)


def laid_out(case: Path, *, changed: bool) -> WorkingCopy:
    """A case with a folder of the OLD files, and perhaps a copy that holds the NEW ones."""
    field = case / "field"
    field.mkdir(parents=True)
    for name, text in OLD.items():
        (field / name).write_text(text, encoding="utf-8")
    copy = copy_in(case)
    if changed:
        for name, text in NEW.items():
            copy.write(name, text)
        copy.remove("spots.csv")
    return copy


def begin(case: Path) -> Callable[[], object]:
    """Make the copy."""
    return laid_out(case, changed=False).begun


def keep(case: Path) -> Callable[[], object]:
    """Keep a file for the first time, saying when it is kept."""
    copy = laid_out(case, changed=False)

    def act() -> None:
        copy.write("order.csv", NEW["order.csv"])
        say("kept")

    return act


def together(case: Path) -> Callable[[], object]:
    """Change several files of a copy as one."""
    copy = laid_out(case, changed=False)
    copy.begun()

    def act() -> None:
        with copy.together() as folder:
            for name, text in NEW.items():
                written(folder / name, text)
            (folder / "spots.csv").unlink()
        say("kept")

    return act


def save(case: Path) -> Callable[[], object]:
    """Save the copy into the folder, saying when it is saved."""
    copy = laid_out(case, changed=True)

    def act() -> None:
        copy.save()
        say("kept")

    return act


def discard(case: Path) -> Callable[[], object]:
    """Give up the copy."""
    return laid_out(case, changed=True).discard


def keeping(case: Path) -> Callable[[], object]:
    """Keep a file again and again, counting, and say each count that was kept."""
    copy = laid_out(case, changed=False)

    def act() -> None:
        for count in range(1, 1_000_000):
            copy.write("order.csv", f"{count}\n" * 5000)
            say(str(count))

    return act


def store(case: Path) -> Callable[[], object]:
    """Keep a ground that was computed, as the sun, the climate and the frost of a land are."""
    kept = Store(case / "store")
    given = [getattr(GROUND, name) for name in ("sun", "climate", "frost")]

    def act() -> None:
        for one in given:
            kept.kept(type(one), "inputs", lambda: one)  # noqa: B023 - called at once

    return act


def ground(case: Path) -> Callable[[], object]:
    """Compute a ground, kept in the case's store, for one latitude after the other."""

    def act() -> None:
        for latitude in range(40, 60):
            say(str(latitude))
            _ = ground_of(case, latitude).sun

    return act


def ground_of(case: Path, latitude: float) -> Ground:
    """The ground of a small made-up site, over a case's store."""
    return Ground(site([BARN], latitude=float(latitude)), CATALOGUE, Store(case / "store"))


ENDING = (begin, keep, together, save, discard, store)
ENDLESS = (keeping, ground)
GROUND = Ground(site([BARN]), CATALOGUE, Store(Path(os.devnull)))


def say(words: str) -> None:
    """Say something that is heard even if the next step is the last."""
    os.write(1, f"{words}\n".encode())


def _deadly(step: int) -> None:
    """Kill this process at a step."""
    left = [step]

    def hook(event: str, _arguments: tuple[object, ...]) -> None:
        if event in STEPS:
            left[0] -= 1
            if left[0] == 0:
                os.kill(os.getpid(), signal.SIGKILL)

    sys.addaudithook(hook)


def _died(act: Callable[[], object], step: int, after: float | None) -> bool:
    """Whether an act in a process of its own was killed before its end."""
    child = os.fork()
    if not child:
        if after is None:
            _deadly(step)
        act()
        os._exit(0)
    if after is not None:
        sleep(after)
        os.kill(child, signal.SIGKILL)
    _child, status = os.waitpid(child, 0)
    if not os.WIFSIGNALED(status) and status:
        raise RuntimeError(f"the act failed by itself with {status}")
    return os.WIFSIGNALED(status)


def main(folder: Path, times: int) -> None:
    """Kill each act at every step, or at random moments."""
    _ = GROUND.sun, GROUND.climate, GROUND.frost
    for act in ENDING:
        for step in range(1, 1000):
            if not _killed(act, folder, step, None):
                break
    moments = Random(times)  # noqa: S311 - no secret
    for act in ENDLESS:
        for step in range(1, times + 1):
            _killed(act, folder, step, moments.uniform(0.1, 0.8))


def _killed(act: Act, folder: Path, step: int, after: float | None) -> bool:
    case = folder / act.__name__ / f"{step}"
    ready = act(case)
    say(f"case {act.__name__} {step}")
    return _died(ready, step, after)


if __name__ == "__main__":
    main(Path(sys.argv[1]), int(sys.argv[2]))
