"""A visitor's own copy of a survey folder: made at the first change, kept until it is given up."""

import os
import re
import shutil
import tempfile
from hashlib import sha256
from pathlib import Path
from secrets import token_urlsafe

from platformdirs import user_data_path

from model.survey.archive import is_own_file

VISITOR = re.compile(r"[A-Za-z0-9_-]{20,64}")


def new_visitor() -> str:
    """A name for a visitor's browser that nobody can guess."""
    return token_urlsafe(24)


def copies_folder() -> Path:
    """Where the working copies are kept: TREESTEAD_DATA, else the user's own data folder."""
    kept = os.environ.get("TREESTEAD_DATA")
    return (Path(kept) if kept else user_data_path("treestead")) / "copies"


def written(path: Path, content: str | bytes) -> Path:
    """The file, written whole or not at all; what stood there before is replaced.

    Raises OSError when the folder cannot be written.
    """
    data = content.encode("utf-8") if isinstance(content, str) else content
    with tempfile.NamedTemporaryFile("wb", dir=path.parent, prefix=".draft", delete=False) as draft:
        draft.write(data)
        draft.flush()
        os.fsync(draft.fileno())
    Path(draft.name).chmod(0o644)
    return Path(draft.name).replace(path)


class WorkingCopy:
    """The folder as one visitor has changed it; the original stays as it is until saved."""

    def __init__(self, original: Path, visitor: str = "") -> None:
        self.original = Path(original)
        self.visitor = visitor if VISITOR.fullmatch(visitor) else new_visitor()
        of_folder = sha256(str(self.original.resolve()).encode("utf-8")).hexdigest()[:16]
        self.own = copies_folder() / self.visitor / of_folder

    @property
    def changed(self) -> bool:
        """Whether the visitor has a copy of their own."""
        return self.own.is_dir()

    @property
    def folder(self) -> Path:
        """The folder to read: the visitor's own where there is one."""
        return self.own if self.changed else self.original

    def begun(self) -> Path:
        """The visitor's own folder, made now if it was not there."""
        if not self.changed:
            self.own.parent.mkdir(parents=True, exist_ok=True)
            draft = Path(tempfile.mkdtemp(prefix=".draft", dir=self.own.parent))
            for file in self.original.iterdir():
                if is_own_file(file):
                    shutil.copyfile(file, draft / file.name)
            draft.replace(self.own)
        return self.own

    def write(self, name: str, content: str | bytes) -> Path:
        """Write a file of the visitor's own folder; OSError when there is no room for it."""
        if not name or Path(name).name != name or name.startswith("."):
            raise ValueError(f"found {name!r}, expected the name of a file without a folder")
        return written(self.begun() / name, content)

    def remove(self, name: str) -> None:
        """Remove a file from the visitor's own folder, if it is there."""
        if not is_own_file(self.begun() / Path(name).name):
            return
        (self.own / Path(name).name).unlink(missing_ok=True)

    def discard(self) -> None:
        """Give up the copy: the original is shown again."""
        if self.changed:
            given_up = Path(tempfile.mkdtemp(prefix=".given-up", dir=self.own.parent))
            self.own.replace(given_up / "copy")
            shutil.rmtree(given_up, ignore_errors=True)

    def save(self) -> list[Path]:
        """Write what differs into the original folder and give up the copy; the files written.

        A file that was removed from the copy is removed there too. OSError when the folder cannot
        be written; the copy is then still there.
        """
        if not self.changed:
            return []
        mine = {file.name: file.read_bytes() for file in self.own.iterdir() if file.is_file()}
        saved = [
            written(self.original / name, content)
            for name, content in sorted(mine.items())
            if not _holds(self.original / name, content)
        ]
        for file in self.original.iterdir():
            if is_own_file(file) and file.name not in mine:
                file.unlink()
        self.discard()
        return saved


def _holds(path: Path, content: bytes) -> bool:
    return path.is_file() and path.read_bytes() == content
