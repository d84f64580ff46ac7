"""What a page is: one subject on the screen, which shows the session's study."""

from collections.abc import Mapping, Sequence
from typing import Any, ClassVar

from panel.viewable import Viewer

from dashboard.session import Session


class Page(Viewer):
    """One page of the app.

    A subclass sets `path` (its word in the address), `label` (in the navigation) and `about` (what
    to do here, in a sentence or two), builds `main` and perhaps `side` (the drawer at the left)
    and `tools` (buttons in the header), and draws what has changed in `refresh`, which the shell
    calls each time the page comes into view.
    """

    path: ClassVar[str]
    label: ClassVar[str]
    about: ClassVar[str]

    main: Any
    side: Any = None
    tools: Sequence[Any] = ()

    def __init__(self, session: Session, **choices: Any) -> None:
        super().__init__(**choices)
        self.session = session

    def __panel__(self) -> Any:
        """The page as a notebook shows it."""
        return self.main

    def refresh(self) -> None:
        """Draw what has changed since the page was last in view."""

    def query(self) -> dict[str, str]:
        """The page's own settings as words of a link."""
        return {}

    def follow(self, words: Mapping[str, str]) -> list[str]:  # noqa: ARG002 -- pages that have any
        """Set the page as a link says; sentences for what it asks and this site has not."""
        return []
