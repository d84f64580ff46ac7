"""How often one phone may ask, so that a machine gone wild does not keep the others waiting."""

import time
from collections import OrderedDict
from collections.abc import Callable

MOST = 5000  # askers remembered


class Pace:
    """So many requests at once, and then so many a second, for each asker."""

    def __init__(
        self, at_once: float, a_second: float, clock: Callable[[], float] = time.monotonic
    ) -> None:
        self.at_once, self.a_second, self._clock = at_once, a_second, clock
        self._left: OrderedDict[str, tuple[float, float]] = OrderedDict()

    def allows(self, asker: str) -> bool:
        """Whether the asker may have one more answer now."""
        now = self._clock()
        left, since = self._left.pop(asker, (self.at_once, now))
        left = min(self.at_once, left + (now - since) * self.a_second)
        allowed = left >= 1
        self._left[asker] = (left - 1 if allowed else left, now)
        while len(self._left) > MOST:
            self._left.popitem(last=False)
        return allowed
