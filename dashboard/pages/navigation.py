"""The row of pages, and what the browser tells about itself."""

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import param
from panel.custom import JSComponent

from dashboard import theme

HERE = Path(__file__).parent
COOKIE = "treestead"


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
    """Tells whether the window is too narrow to show a drawer beside the page.

    It also leaves the visitor's name in a cookie, by which a reload finds their working copy.
    """

    narrow = param.Boolean(default=False, doc="Whether the window is narrow.")
    visitor = param.String(default="", doc="The visitor's name, to be found again.")

    _esm = f"""
    export function render({{model}}) {{
      const query = window.matchMedia("(max-width: {theme.NARROW - 1}px)")
      const tell = () => model.send_msg({{narrow: query.matches}})
      query.addEventListener("change", tell)
      tell()
      if (model.visitor) {{
        document.cookie = `{COOKIE}=${{model.visitor}}; path=/; max-age=31536000; SameSite=Strict`
      }}
    }}
    """

    def _handle_msg(self, data: Any) -> None:
        self.narrow = bool(data.get("narrow"))
