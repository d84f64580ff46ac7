"""A visitor's own copy of a survey folder: made at the first change, kept until it is given up.

Whatever the moment at which the app is killed: a copy is there whole or not at all, of files that
are changed together all are changed or none, and a saving that was cut short is finished by saving
again.
"""

import filecmp
import json
import os
import re
import shutil
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from hashlib import sha256
from pathlib import Path
from secrets import token_urlsafe

from platformdirs import user_data_path

from dashboard.keeping.drafts import PREFIX, draft_folder, put_away, sweep, written
from dashboard.keeping.holding import held
from dashboard.keeping.saving import Base, Saved, save_into
from model.survey.archive import is_own_file

__all__ = ["WorkingCopy", "copies_folder", "data_folder", "new_visitor", "sweep_copies", "written"]

VISITOR = re.compile(r"[A-Za-z0-9_-]{20,64}")
BASE = ".begun.json"  # what the original held when the copy was begun
GONE = ".gone.json"  # in a set of changes that is being taken: which files it removes
LEFT = (PREFIX, ".draft", ".writing-")  # begin the names of what killed writers leave


def new_visitor() -> str:
    """A name for a visitor's browser that nobody can guess."""
    return token_urlsafe(24)


def data_folder() -> Path:
    """Where what must be kept is kept: TREESTEAD_DATA, else the user's own data folder."""
    kept = os.environ.get("TREESTEAD_DATA")
    return Path(kept) if kept else user_data_path("treestead")


def copies_folder() -> Path:
    """Where the working copies are kept."""
    return data_folder() / "copies"


def sweep_copies(original: Path) -> None:
    """Remove what killed apps left in a folder and among all working copies."""
    sweep(original)
    with suppress(OSError):
        for visitor in copies_folder().iterdir():
            sweep(visitor, LEFT)
            for copy in visitor.iterdir() if visitor.is_dir() else ():
                sweep(copy, LEFT)


class WorkingCopy:
    """The folder as one visitor has changed it; the original stays as it is until saved."""

    def __init__(self, original: Path, visitor: str = "") -> None:
        self.original = Path(original)
        self.visitor = visitor if VISITOR.fullmatch(visitor) else new_visitor()
        of_folder = sha256(str(self.original.resolve()).encode("utf-8")).hexdigest()[:16]
        self.own = copies_folder() / self.visitor / of_folder
        self._decided = self.own.with_name(f"{of_folder}.decided")
        with suppress(OSError):  # a data folder that can only be read
            self._finish()

    @property
    def changed(self) -> bool:
        """Whether the visitor has a copy of their own."""
        return self.own.is_dir()

    @property
    def folder(self) -> Path:
        """The folder to read: the visitor's own where there is one."""
        return self.own if self.changed else self.original

    @property
    def cut_short(self) -> bool:
        """Whether a saving began that did not come to its end."""
        return self.changed and Base.read(self.own / BASE).saving

    def begun(self) -> Path:
        """The visitor's own folder, made now if it was not there."""
        self._finish()
        if self.changed:
            return self.own
        self.own.parent.mkdir(parents=True, exist_ok=True)
        with draft_folder(self.own.parent) as draft, held(self.original, alone=False):
            for file in self.original.iterdir():
                if is_own_file(file):
                    shutil.copyfile(file, draft / file.name)
            written(draft / BASE, Base.of(draft).text)
            try:
                draft.replace(self.own)
            except OSError:
                if not self.changed:  # else another window of this visitor was first
                    raise
        return self.own

    def write(self, name: str, content: str | bytes) -> Path:
        """Write a file of the visitor's own folder; OSError when there is no room for it."""
        if not name or Path(name).name != name or name.startswith("."):
            raise ValueError(f"found {name!r}, expected the name of a file without a folder")
        return written(self.begun() / name, content)

    def remove(self, name: str) -> None:
        """Remove a file from the visitor's own folder, if it is there."""
        if is_own_file(self.folder / Path(name).name):
            (self.begun() / Path(name).name).unlink(missing_ok=True)

    @contextmanager
    def together(self) -> Iterator[Path]:
        """A folder like the copy, whose changes are taken all at once if it is left without error.

        Put files into the place of others, as `written` does: to write into one, or to add to it,
        would change the copy's own, which they share.
        """
        own = self.begun()
        with draft_folder(own.parent) as beside:
            for name, file in _files(own).items():
                (beside / name).parent.mkdir(exist_ok=True)
                _link(file, beside / name)
            yield beside
            self._take(beside)

    def discard(self) -> None:
        """Give up the copy: the original is shown again."""
        if self.changed:
            put_away(self.own)

    def save(self) -> Saved:
        """Write what differs into the original folder and give up the copy.

        A file that was removed from the copy is removed there too; what others have changed there
        and this visitor has not is left. Raises ChangedMeanwhile where both have changed a file,
        OSError when the folder cannot be written; the copy is then still there. Saving again takes
        up what was left undone, or puts the others' files aside.
        """
        self._finish()
        if not self.changed:
            return Saved([], [])
        with held(self.original, alone=True):
            saved = save_into(self.original, self.own, self.own / BASE)
        self.discard()
        return saved

    def _take(self, beside: Path) -> None:
        """Decide on the changes at one stroke, then bring them to their places."""
        old, new = _files(self.own), _files(beside)
        gone = [name for name in old if name not in new]
        same = [name for name in new if name in old and _is_same(new[name], old[name])]
        if not gone and len(same) == len(new):
            return
        for name in same:
            new[name].unlink()
        written(beside / GONE, json.dumps(gone))
        beside.replace(self._decided)
        self._finish()

    def _finish(self) -> None:
        """Bring changes that were decided on to their places; nothing where there are none."""
        if not self._decided.is_dir():
            return
        with suppress(FileNotFoundError):  # another app of this visitor is at the same, and first
            if self.changed:
                for name in json.loads((self._decided / GONE).read_text(encoding="utf-8")):
                    (self.own / name).unlink(missing_ok=True)
                for name, file in _files(self._decided).items():
                    (self.own / name).parent.mkdir(exist_ok=True)
                    file.replace(self.own / name)
            put_away(self._decided)


def _files(folder: Path) -> dict[str, Path]:
    """The files of a folder and of the folders within, by name; none that is hidden."""
    found = {path.relative_to(folder): path for path in folder.rglob("*") if path.is_file()}
    return {
        name.as_posix(): path
        for name, path in sorted(found.items())
        if not any(part.startswith(".") for part in name.parts)
    }


def _link(file: Path, place: Path) -> None:
    try:
        os.link(file, place)
    except OSError:  # a disk that knows no second name for a file
        shutil.copyfile(file, place)


def _is_same(one: Path, other: Path) -> bool:
    return one.samefile(other) or filecmp.cmp(one, other, shallow=False)
