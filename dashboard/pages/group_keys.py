"""The vote that a teacher has under way, kept so that a reload finds it and nobody else can."""

import json
import tempfile
from dataclasses import asdict, dataclass
from pathlib import Path

from dashboard.keeping.working_copy import WorkingCopy
from dashboard.votes.ballots import Key


@dataclass(frozen=True)
class Held:
    """A vote's code, its owner's key, and the address that phones are told."""

    code: str
    owner: str
    base: str = ""

    @property
    def key(self) -> Key:
        """What the store asks for."""
        return Key(self.code, self.owner)


class Keys:
    """The one vote of a visitor over a folder, in a file beside their working copies.

    Only the visitor's cookie, which nobody can guess, leads to it; without a working copy (in a
    notebook) it is only remembered.
    """

    def __init__(self, copy: WorkingCopy | None) -> None:
        self._path = None if copy is None else copy.own.with_name(f"{copy.own.name}.vote.json")

    def held(self) -> Held | None:
        """The vote under way, None when there is none."""
        if self._path is None:
            return None
        try:
            return Held(**json.loads(self._path.read_text(encoding="utf-8")))
        except (OSError, TypeError, ValueError):
            return None

    def keep(self, held: Held) -> None:
        """Keep a vote in place of the one before, for this user of the machine alone to read."""
        if self._path is None:
            return
        self._path.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.NamedTemporaryFile(
            "w", encoding="utf-8", dir=self._path.parent, prefix=".draft", delete=False
        ) as draft:
            json.dump(asdict(held), draft)
        Path(draft.name).replace(self._path)

    def drop(self) -> None:
        """Forget the vote under way."""
        if self._path is not None:
            self._path.unlink(missing_ok=True)
