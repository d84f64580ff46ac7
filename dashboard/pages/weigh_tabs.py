"""A row of tabs: which question of the page is open."""

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import param
from panel.custom import JSComponent

HERE = Path(__file__).parent


class Tabs(JSComponent):
    """Tabs by name; `open` is the one whose panel is shown."""

    tabs = param.List(default=[], doc="Name and words of each tab, in order.")
    open = param.String(default="", doc="Name of the open tab.")
    label = param.String(default="", doc="What the row is called by a screen reader.")

    _esm = HERE / "weigh_tabs.js"
    _stylesheets = [(HERE / "weigh_tabs.css").read_text(encoding="utf-8")]  # noqa: RUF012 -- as Panel wants it

    def __init__(self, tabs: Sequence[tuple[str, str]], **settings: Any) -> None:
        plain = [list(tab) for tab in tabs]
        super().__init__(**{"tabs": plain, "open": plain[0][0], "margin": 0, **settings})
