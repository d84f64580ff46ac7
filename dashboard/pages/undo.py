"""Steps taken, so that every choice can be taken back."""

from typing import Any

from dashboard.live import same

STEPS = 100


class Undo:
    """A stack of snapshots; a drag is one step however many moves it has."""

    def __init__(self) -> None:
        self._kept: list[Any] = []
        self._dragged: str = ""

    def __len__(self) -> int:
        return len(self._kept)

    def keep(self, snapshot: Any, drag: str = "") -> None:
        """Keep what was before a step; moves of a drag that is already kept add nothing."""
        if drag and drag == self._dragged:
            return
        self._dragged = drag
        self._kept = [*self._kept, snapshot][-STEPS:]

    def settle(self) -> None:
        """End the drag: the next move is a step of its own."""
        self._dragged = ""

    def last(self, now: Any) -> Any | None:
        """Take the latest snapshot that differs from `now` off the stack; None without one."""
        self.settle()
        while self._kept:
            kept = self._kept.pop()
            if not alike(kept, now):
                return kept
        return None


def alike(one: Any, other: Any) -> bool:
    """Whether two snapshots hold the same choices."""
    if isinstance(one, dict):
        return one.keys() == other.keys() and all(alike(one[key], other[key]) for key in one)
    return same(one, other)
