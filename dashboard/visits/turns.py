"""First come, first served: a page is begun when nobody who is there already waits."""

import asyncio
from time import monotonic

BREATH = 0.1  # s
LATE = 0.02  # s by which a breath may be late while the loop counts as free
LONGEST = 2.0  # s that a visitor waits when the loop is never free


class Turns:
    """To make a page takes long; in between, what others have asked for is answered."""

    def __init__(self) -> None:
        self._door = asyncio.Lock()

    async def mine(self) -> None:
        """Wait for one's turn, and then until the loop is free."""
        async with self._door:
            end = monotonic() + LONGEST
            while monotonic() < end:
                due = monotonic() + BREATH
                await asyncio.sleep(BREATH)
                if monotonic() - due < LATE:
                    return
