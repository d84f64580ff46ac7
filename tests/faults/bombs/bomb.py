"""What a bomb is."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from pathlib import Path

from model.survey import read_site
from tests.faults import samples


@dataclass(frozen=True)
class Bomb:
    """What is in a file, and how it is read; `refused` is false where leaving it out is right."""

    name: str
    file: str
    content: Callable[[], bytes]
    read: Callable[[Path], Iterable[str] | None]
    refused: bool = True


def read_as_survey(path: Path) -> None:
    """A file of a survey folder whose site is otherwise right."""
    if path.name != "site.toml":
        (path.parent / "site.toml").write_text(samples.SITE, encoding="utf-8")
    read_site(path.parent)


def texts(name: str, file: str, content: str, *, refused: bool = True) -> Bomb:
    """A bomb of text among the files of a survey."""
    return Bomb(name, file, content.encode, read_as_survey, refused)
