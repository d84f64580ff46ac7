"""A survey folder while it is read: its files as text, and the list of faults that grows."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from difflib import get_close_matches
from pathlib import Path

from model.survey.attribute import Attribute, Value, Wrong, checked_value
from model.survey.faults import Fault, SurveyFaults, shown_name

NEARLY = 0.9  # likeness of two file names from which one is taken for a slip of the other
LARGEST_TEXT = 20_000_000  # bytes; 20,000 features come to about 6 million
LARGEST = {".epw": 200_000_000, ".toml": 500_000}  # 100 years by the hour: about 150 million
MOST_FAULTS = 100  # after so many a file is not read on, as nobody would read them


@dataclass
class Folder:
    """Where the survey is read from and what was found wrong so far."""

    path: Path
    faults: list[Fault] = field(default_factory=list)
    most: int = MOST_FAULTS

    def fault(self, file: str, row: int | None, name: str, wrong: Wrong) -> None:
        """Note one fault; SurveyFaults once there are more of them than anyone would read."""
        place = file, row, shown_name(name)
        self.faults.append(Fault(*place, wrong.found, wrong.expected, wrong.mend))
        if len(self.faults) >= self.most:
            raise SurveyFaults(self.faults)

    def value(self, file: str, row: int | None, attribute: Attribute, raw: object) -> Value | None:
        """A checked value, or None with the fault noted."""
        value = checked_value(attribute, raw)
        if isinstance(value, Wrong):
            self.fault(file, row, attribute.name, value)
            return None
        return value

    def present(self, names: Iterable[str]) -> list[str]:
        """Those of the names that the folder has and that do not lead out of it."""
        return [name for name in names if self._is_inside(name)]

    def one_of(self, names: Iterable[str], topic: str) -> str | None:
        """The one file of a topic, None when there is none; more than one is a fault."""
        found = self.present(names)
        if len(found) > 1:
            wrong = Wrong(" and ".join(found), f"one file of {topic}", "moving the others away")
            self.fault(found[0], None, "", wrong)
        return found[0] if found else None

    def note_misspelt(self, names: Iterable[str]) -> None:
        """Note files whose names are nearly, but not quite, those of files that are read."""
        known = set(names)
        for path in sorted(self.path.iterdir()):
            close = get_close_matches(path.name.lower(), known, n=1, cutoff=NEARLY)
            if path.name in known or not close or len(path.name) - len(close[0]) not in (-1, 0, 1):
                continue
            if not (self.path / close[0]).exists():
                wrong = Wrong("a file that is not read", close[0], f"renaming it to {close[0]}")
                self.fault(path.name, None, "", wrong)

    def text(self, name: str) -> str | None:
        """A file's text, or None with the fault noted."""
        path = self.path / name
        try:
            size = path.stat().st_size
            most = LARGEST.get(path.suffix, LARGEST_TEXT)
            if size > most:
                wrong = Wrong(f"{size:,} bytes", f"at most {most:,}", "cutting it to the site")
                self.fault(name, None, "", wrong)
                return None
            data = path.read_bytes()
        except (OSError, ValueError) as error:
            if isinstance(error, SurveyFaults):
                raise
            reason = getattr(error, "strerror", "") or "an unreadable file"
            self.fault(name, None, "", Wrong(reason, "a readable file", "checking its rights"))
            return None
        unreadable = _unreadable(data)
        if unreadable is None:
            return data.decode("utf-8-sig")
        row, wrong = unreadable
        self.fault(name, row, "", wrong)
        return None

    def _is_inside(self, name: str) -> bool:
        path = self.path / name
        if not path.exists():
            return False
        try:
            inside = path.resolve().is_relative_to(self.path.resolve())
        except (OSError, RuntimeError):
            inside = False
        if not inside:
            wrong = Wrong("a link out of the folder", "a file in the folder", "copying it there")
            self.fault(name, None, "", wrong)
        elif not path.is_file():
            self.fault(name, None, "", Wrong("a folder", "a file", "renaming the folder"))
        return inside and path.is_file()


def _unreadable(data: bytes) -> tuple[int | None, Wrong] | None:
    """Row and fault when bytes are not a text file."""
    if not data.strip():
        return None, Wrong("an empty file", "at least a header", "filling it in or deleting it")
    try:
        data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        row = data[: error.start].count(b"\n") + 1
        found = f"the byte {data[error.start]:#04x}"
        return row, Wrong(found, "text in UTF-8", "saving the file as CSV UTF-8 or plain UTF-8")
    if b"\0" in data:
        row = data[: data.index(b"\0")].count(b"\n") + 1
        return row, Wrong("a zero byte", "text in UTF-8", "saving the file as plain UTF-8 text")
    return None
