"""A working copy written into its folder, where another may have saved something meanwhile."""

import json
import shutil
import tempfile
from collections.abc import Iterable
from dataclasses import asdict, dataclass, replace
from hashlib import sha256
from pathlib import Path
from typing import NamedTuple

from dashboard.keeping.drafts import drafted, written
from model.language import _, marked
from model.opening import folder_faults
from model.survey.archive import is_own_file
from model.survey.writing import SET_ASIDE

Digests = dict[str, str]


class ChangedMeanwhile(ValueError):  # noqa: N818 - what happened, said to a person
    """Why a copy was not saved, and what can be done, in sentences."""


class Saved(NamedTuple):
    """Files that were written, and names of those that others changed and that were left so."""

    files: list[Path]
    left: list[str]


@dataclass(frozen=True)
class Base:
    """The folder as it was when a copy of it was begun, by digests of its files.

    `told` are files of others that the visitor has been told would be replaced by saving again;
    `saving` says that a saving began.
    """

    files: Digests
    told: tuple[str, ...] = ()
    saving: bool = False

    @classmethod
    def of(cls, folder: Path) -> "Base":
        """What a folder holds now."""
        return cls(_digests(folder))

    @classmethod
    def read(cls, path: Path) -> "Base":
        """A base as it was kept; without one, nothing is known to be as it was."""
        try:
            kept = json.loads(path.read_text(encoding="utf-8"))
            return cls(dict(kept["files"]), tuple(kept["told"]), kept["saving"] is True)
        except (OSError, ValueError, TypeError, KeyError):
            return cls({})

    def after(self, told: list[str], theirs: Digests) -> "Base":
        """The base once the visitor knows of others' files: they are what the folder held."""
        others = {name: digest for name, digest in self.files.items() if name not in told}
        known = {name: theirs[name] for name in told if name in theirs}
        return replace(self, files=others | known, told=(*self.told, *told))

    @property
    def text(self) -> str:
        """The base as it is kept."""
        return json.dumps(asdict(self))


def save_into(folder: Path, copy: Path, kept: Path) -> Saved:
    """Write a copy's changes into the folder that it was made of; `kept` holds its base.

    Everything is on the folder's disk before the first file takes its place, so that a disk
    without room changes nothing. Raises ChangedMeanwhile or OSError.
    """
    base, mine, theirs = Base.read(kept), _digests(copy), _digests(folder)
    names = sorted({*base.files, *mine, *theirs})
    changed = [
        n for n in names if mine.get(n) != base.files.get(n) and mine.get(n) != theirs.get(n)
    ]
    left = [n for n in names if n not in changed and mine.get(n) != theirs.get(n)]
    clashing = [name for name in changed if theirs.get(name) != base.files.get(name)]
    why = _both(clashing) if clashing else _unfit(folder, copy, changed) if left else ""
    if why:
        written(kept, base.after(clashing or left, theirs).text)
        raise ChangedMeanwhile(f"{why} {_(AGAIN)}")
    written(kept, replace(base, saving=True).text)
    _put_aside(folder, [name for name in base.told if name in changed])
    files = _written_all(folder, {n: (copy / n).read_bytes() for n in changed if n in mine})
    for name in changed:
        if name not in mine:
            (folder / name).unlink(missing_ok=True)
    return Saved(files, left)


AGAIN = marked(
    "Saving again takes yours and puts the other's into the folder 'replaced' within it; or "
    "download your copy under Survey, Files, and go back to the folder as it is saved."
)


def _both(names: list[str]) -> str:
    said = _("Not saved: since your copy was begun another has changed {names} in the folder too.")
    return said.format(names=", ".join(names))


def _unfit(folder: Path, copy: Path, changed: Iterable[str]) -> str:
    """Why what others changed and what this visitor changed do not go together, if they do not."""
    with tempfile.TemporaryDirectory(prefix="treestead-") as beside:
        for file in filter(is_own_file, folder.iterdir()):
            shutil.copyfile(file, Path(beside) / file.name)
        for name in changed:
            (Path(beside) / name).unlink(missing_ok=True)
            if (copy / name).is_file():
                shutil.copyfile(copy / name, Path(beside) / name)
        faults = folder_faults(beside)
    if not faults:
        return ""
    said = _(
        "Not saved: with what another has changed in the folder there would be a fault: {fault}."
    )
    return said.format(fault=faults[0].rstrip("."))


def _written_all(folder: Path, files: dict[str, bytes]) -> list[Path]:
    """Files in their places, all of them drafted before the first is moved there."""
    drafts: dict[str, Path] = {}
    try:
        for name, content in files.items():
            drafts[name] = drafted(folder, content)
        return [drafts[name].replace(folder / name) for name in files]
    finally:
        for draft in drafts.values():
            draft.unlink(missing_ok=True)


def _put_aside(folder: Path, names: Iterable[str]) -> None:
    for name in names:
        if (folder / name).is_file():
            aside = folder / SET_ASIDE
            aside.mkdir(exist_ok=True)
            number = 1 + sum(1 for _one in aside.glob(f"*{name}"))
            content = (folder / name).read_bytes()
            written(aside / (name if number == 1 else f"{number}-{name}"), content)


def _digests(folder: Path) -> Digests:
    """Digest of each file of a folder, by name."""
    return {
        file.name: sha256(file.read_bytes()).hexdigest()
        for file in sorted(folder.iterdir())
        if is_own_file(file)
    }
