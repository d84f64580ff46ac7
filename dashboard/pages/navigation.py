"""The row of pages, and what the browser tells about itself."""

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import param
from panel.custom import JSComponent

from dashboard import theme
from model.language import language_code

HERE = Path(__file__).parent


class Navigation(JSComponent):
    """Buttons that open the pages; `opened(path)` is called with a page that there is."""

    pages = param.List(default=[], doc="Path and label of each page, in order.")
    current = param.String(default="", doc="Path of the page that is open.")
    label = param.String(default="Pages", doc="What the row is called by a screen reader.")

    _esm = HERE / "navigation.js"
    _stylesheets = [(HERE / "navigation.css").read_text(encoding="utf-8")]  # noqa: RUF012 -- as Panel wants it

    def __init__(
        self, pages: Sequence[tuple[str, str]], opened: Callable[[str], None], **settings: Any
    ) -> None:
        super().__init__(**{"pages": [list(page) for page in pages], "margin": 0, **settings})
        self._opened = opened

    def _handle_msg(self, data: Any) -> None:
        if data.get("page") in [path for path, _label in self.pages]:
            self._opened(data["page"])


class Screen(JSComponent):
    """What the browser tells about itself, and what the whole window is told.

    It tells whether the window is too narrow for a drawer beside the page and whether the visitor
    reads light on dark.
    """

    narrow = param.Boolean(default=False, doc="Whether the window is narrow.")
    dark = param.Boolean(default=False, doc="Whether the window is shown light on dark.")
    width = param.Integer(default=theme.NARROW, doc="Width below which a window is narrow [px].")
    language = param.String(default="en", doc="The language that a screen reader shall speak.")

    _esm = HERE / "screen.js"

    def __init__(self, **settings: Any) -> None:
        super().__init__(**{"language": language_code()} | settings)

    def _handle_msg(self, data: Any) -> None:
        self.param.update(narrow=bool(data.get("narrow")), dark=bool(data.get("dark")))
