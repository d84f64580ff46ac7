"""Long work: done in one line off the server's loop, and told to whoever still waits for it."""

import logging
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from typing import Any

from model.language import _

Progress = Callable[[str], None]
Told = Callable[[Any, str], None]
# Long work of all visitors waits in one line, so that the sliders of the others keep their turn.
_LINE = ThreadPoolExecutor(max_workers=1, thread_name_prefix="treestead")
_logger = logging.getLogger(__name__)


class Ended(Exception):  # noqa: N818 - what happened, not a fault
    """The visitor has left: nobody waits for this work any more."""


class Asker:
    """The document that long work is done for."""

    def __init__(self, document: Any) -> None:
        self._document = document

    @property
    def ended(self) -> bool:
        """Whether the visitor's session is over: its browser was closed or loaded anew."""
        context = self._document.session_context
        return context is None or context.destroyed

    def tell(self, act: Callable[[], Any]) -> None:
        """Do something on the page in its own turn; nothing once the session is over."""
        if self.ended:
            return
        try:
            self._document.add_next_tick_callback(lambda: None if self.ended else act())
        except (AttributeError, RuntimeError):  # what a document does that ends at this moment
            if not self.ended:
                raise

    def submit(self, work: Callable[[Progress], Any], say: Progress, told: Told) -> None:
        """Put work into the line; it is dropped, begun or not, once the session is over.

        `say` and `told`, which takes the result and what went wrong in words, are called back on
        the page.
        """

        def progress(words: str) -> None:
            if self.ended:
                raise Ended
            self.tell(lambda: say(words))

        def job() -> None:
            if self.ended:
                return
            try:
                result, fault = outcome(work, progress)
            except Ended:
                return
            self.tell(lambda: told(result, fault))

        _LINE.submit(job)


def outcome(work: Callable[[Progress], Any], say: Progress) -> tuple[Any, str]:
    """What the work gave, and what went wrong in words."""
    try:
        return work(say), ""
    except (ValueError, OSError) as error:
        return None, str(error)
    except Ended:
        raise
    except Exception:
        _logger.exception("long work failed")
        return None, unforeseen()


def unforeseen() -> str:
    """What is said of an error that nobody foresaw and that went into the log."""
    return _(
        "That did not work, through a fault of this software. What was kept is still there. "
        "The window in which Treestead was started says more."
    )
